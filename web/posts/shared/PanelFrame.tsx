import { type ReactNode, Suspense, useState } from "react";
import { fill } from "../../../shared/asks/ask.ts";
import { askedOf } from "../../../shared/asks/asked.ts";
import { enginesSeen, type Facing } from "../../../shared/models/facing.ts";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import { say } from "../../../shared/words/en.ts";
import { AskNow, NothingAsked } from "../../ui/AskNow.tsx";
import type { AskView } from "../../ui/askView.ts";
import { later } from "../../ui/later.tsx";
import { facingWords, usualFacing } from "../../ui/plan/facing.ts";
import { Plan } from "../../ui/plan/Plan.tsx";
import { Queue } from "../../ui/Queue.tsx";
import { Sent } from "../../ui/Sent.tsx";
import { Standing } from "../../ui/Standing.tsx";
import { Stops } from "../../ui/Stops.tsx";
import { useUnits } from "../../ui/units.ts";
import { useWords } from "../../words/words.ts";
import { askView } from "./askViews.ts";
import { Caution } from "./Caution.tsx";
import { EngineSheet } from "./EngineSheet.tsx";
import { foremost, type Held } from "./foremost.ts";
import { planNotes, planView } from "./marks.ts";
import type { Panel } from "./model.ts";
import { sentRows } from "./sentRows.ts";
import { standingStops } from "./standing.ts";
import { stopActions } from "./stopActions.ts";

const WorkedOut = later(() => import("./WorkedOut.tsx").then((m) => m.WorkedOut));

interface Props {
  panel: Panel;
  /** Said when the link is not fresh; null while it is. */
  stale: string | null;
  /** What this post works with besides what is asked: below the queue. */
  children?: ReactNode;
  /** Below the plan. */
  beside?: ReactNode;
  /** The name of the layout, for its proportions. */
  kind: string;
}

/** What every post's panel has in the same places: stops that stand, the one thing asked, the plan, the stop keys. */
export function PanelFrame({ panel, stale, children, beside, kind }: Props) {
  const { state, post, now } = panel;
  const spoken = useWords();
  const units = useUnits();
  const [held, setHeld] = useState<Held | null>(null);
  const [engine, setEngine] = useState<number | null>(null);
  const [facing, setFacing] = useState<Facing>(usualFacing(post));
  const [given, setGiven] = useState<{ ask: string; sent: string } | null>(null);

  const asks = post === null ? [] : askedOf(state, post, now).map((a) => askView(state, a, now, units));
  const top = foremost(asks, held);
  if (top?.key !== held?.key) setHeld(top ? { key: top.key, over: null, busy: false } : null);
  const sending =
    top !== undefined &&
    given?.ask === top.key &&
    panel.sent.some((s) => s.id === given.sent && s.fate.is === "sending");
  const numbers = enginesSeen(state.engines.length, facing);
  const words = facingWords(facing, post);
  return (
    <div className="panel" data-kind={kind} data-stale={stale !== null || undefined}>
      {stale && (
        <p className="stale" role="alert">
          {stale}
        </p>
      )}
      <Standing stops={standingStops(panel)} />
      <main className="panel-main">
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
        <section className="panel-ask" aria-label="Asked of you" tabIndex={0}>
          {top ? (
            <AskNow
              key={top.key}
              ask={top}
              now={now}
              numbers={numbers}
              fresh={panel.fresh}
              sending={sending}
              onBusy={(busy) => setHeld((h) => h && { ...h, busy })}
              onAnswer={(answer, put) => {
                const action = fill(answer.choice, put);
                const sent = action && panel.act(action);
                if (sent) setGiven({ ask: top.key, sent });
              }}
            />
          ) : (
            <NothingAsked words={idleWords(panel)} waits={waits(panel, units)} />
          )}
          <Sent
            rows={sentRows(state, panel.sent, units)}
            fresh={panel.fresh}
            onAnew={panel.sendAnew}
            onDrop={panel.drop}
          />
          <Queue
            asks={asks.filter((a) => a !== top)}
            onPick={(key) => setHeld({ key, over: asks[0]?.key ?? null, busy: false })}
          />
          {children}
        </section>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
        <section className="panel-plan" aria-label="The aircraft" tabIndex={0}>
          <Plan
            view={planView(state, top?.engine ?? null, now, spoken)}
            facing={facing}
            words={words}
            onFacing={post === "cockpit" ? undefined : setFacing}
            turnWords={facing === "nose" ? "I stand behind the tail" : "I stand before the nose"}
            onEngine={setEngine}
          />
          <ul className="plan-notes">
            {planNotes(state, now, units).map((n) => (
              <li key={n}>{n}</li>
            ))}
          </ul>
          {beside}
          <Suspense fallback={null}>
            <WorkedOut panel={panel} />
          </Suspense>
        </section>
      </main>
      {engine !== null && <EngineSheet panel={panel} n={engine} onClose={() => setEngine(null)} />}
      <footer className="panel-foot">
        <Stops numbers={numbers} actions={stopActions(panel)} />
        <Caution brief />
      </footer>
    </div>
  );
}

function idleWords({ state, post }: Panel): string {
  if (state.stage === "closed") return "This session is closed.";
  if (state.stage === "abandoned") return "This session was abandoned.";
  return post === null
    ? "You hold no post: you watch. Anyone may hold, cut and report fire."
    : say.idle(post);
}

/** What is asked of the other posts now, the first of each. */
function waits({ state, post, now }: Panel, units: UnitChoice): string[] {
  return POSTS.filter((p) => p !== post).flatMap((p): string[] => {
    const first: AskView | undefined = askedOf(state, p, now)
      .filter((a) => a.weight < 4)
      .map((a) => askView(state, a, now, units))[0];
    return first ? [`${say.post(p)}: ${first.sentence}`] : [];
  });
}
