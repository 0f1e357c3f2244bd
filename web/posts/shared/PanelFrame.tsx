import { type ReactNode, Suspense, useLayoutEffect, useMemo, useRef, useState } from "react";
import { fill, type Given } from "../../../shared/asks/ask.ts";
import { askedOf } from "../../../shared/asks/asked.ts";
import { enginesSeen, type Facing } from "../../../shared/models/facing.ts";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import { AskNow, NothingAsked } from "../../ui/AskNow.tsx";
import type { AnswerKey, AskView } from "../../ui/askView.ts";
import { later } from "../../ui/later.tsx";
import { type Opened, useNowOpen, useOpened } from "../../ui/opened.ts";
import { facingWords, usualFacing } from "../../ui/plan/facing.ts";
import { Plan } from "../../ui/plan/Plan.tsx";
import { Queue } from "../../ui/Queue.tsx";
import { Standing } from "../../ui/Standing.tsx";
import { Stops } from "../../ui/Stops.tsx";
import { useUnits } from "../../ui/units.ts";
import { askView } from "./askViews.ts";
import { Caution } from "./Caution.tsx";
import { foremost, type Held } from "./foremost.ts";
import { gathered } from "./gathered.ts";
import { idleWords } from "./idleWords.ts";
import { planView } from "./marks.ts";
import type { Panel } from "./model.ts";
import { StopSheets } from "./StopSheets.tsx";
import { standingStops } from "./standing.ts";
import { useStops } from "./useStops.ts";
import { useTouch } from "./useTouch.ts";

const AirKeys = later(() => import("./AirKeys.tsx").then((m) => m.AirKeys));
const EngineSheet = later(() => import("./EngineSheet.tsx").then((m) => m.EngineSheet));
const BriefNotes = later(() => import("./BriefNotes.tsx").then((m) => m.BriefNotes));
const PlanNotes = later(() => import("./PlanNotes.tsx").then((m) => m.PlanNotes));
const RemoteKeys = later(() => import("../../remote/RemoteKeys.tsx").then((m) => m.RemoteKeys));
const SentList = later(() => import("./SentList.tsx").then((m) => m.SentList));
const WorkedOut = later(() => import("./WorkedOut.tsx").then((m) => m.WorkedOut));

interface Props {
  panel: Panel;
  /** The warning shown when the connection is not fresh; null while it is. */
  stale: string | null;
  /** Further content of this post, below the queue. */
  children?: ReactNode;
  /** Content of this post while nothing is asked, for the way the person faces; `otherwise` is what others show. */
  idle?: (facing: Facing, otherwise: ReactNode) => ReactNode;
  /** Content directly below the ask. */
  below?: ReactNode;
  /** Content below the plan. */
  beside?: ReactNode;
  /** Name of the layout, which sets its proportions. */
  kind: string;
}

/**
 * The frame common to every post's panel: standing stops, the current ask, the plan and the stop keys, always in the
 * same places.
 */
export function PanelFrame({
  panel,
  stale,
  children,
  idle = (_, otherwise) => otherwise,
  below,
  beside,
  kind,
}: Props) {
  const { state, post, now, words } = panel;
  const { text } = words;
  const units = useUnits();
  useTouch(panel);
  const [held, setHeld] = useState<Held | null>(null);
  const engine = useOpened<number>();
  const [facing, setFacing] = useState<Facing>(usualFacing(post));
  const [given, setGiven] = useState<{ ask: string; sent: string } | null>(null);

  // A touch draws the frame again, and must not wait for what it does not change.
  const [asked, asks] = useMemo(() => {
    const asked = post === null ? [] : askedOf(state, post, now);
    const views = asked.map((ask) => ({ ask, view: askView(state, ask, now, units, words) }));
    return [asked, gathered(views, words)] as const;
  }, [state, post, now, units, words]);
  const top = foremost(asks, held);
  const topAsk = asked.find((a) => a.key === top?.key);
  const work = useRef<HTMLElement>(null);
  const askRoom = useRef<HTMLElement>(null);
  // For each new ask, scroll it into view before the paint that first shows it, wherever the person has scrolled to.
  // Repeat when the device is turned, because another part of the panel scrolls then.
  // biome-ignore lint/correctness/useExhaustiveDependencies: for each ask
  useLayoutEffect(() => {
    const toAsk = () => {
      work.current?.scrollTo(0, 0);
      askRoom.current?.scrollTo(0, 0);
    };
    toAsk();
    const turned = matchMedia("(orientation:portrait)");
    turned.addEventListener("change", toAsk);
    return () => turned.removeEventListener("change", toAsk);
  }, [top?.key]);
  if (top?.key !== held?.key) setHeld(top ? { key: top.key, over: null, busy: false } : null);
  const sending =
    top !== undefined &&
    given?.ask === top.key &&
    panel.sent.some((s) => s.id === given.sent && s.status.is === "sending");
  const plan = useMemo(() => planView(state, top?.engine ?? null, now, words), [state, top, now, words]);
  const numbers = enginesSeen(state.engines.length, facing);
  const stops = useStops(panel);
  const answer = (of: AskView, key: AnswerKey, put: Given) => {
    const action = fill(key.choice, put);
    const sent = action && panel.act(action, put.confirmed);
    if (sent) setGiven({ ask: of.key, sent });
  };
  const remote = (
    <Suspense fallback={null}>
      <RemoteKeys
        asked={top && topAsk ? { ask: topAsk, view: top } : null}
        fresh={panel.fresh}
        busy={sending || (held?.busy ?? false)}
        onHold={stops.actions.hold}
        onAnswer={(key) => top && answer(top, key, {})}
      />
    </Suspense>
  );
  return (
    <div className="panel" data-kind={kind} data-stale={stale !== null || undefined}>
      {stale && (
        <p className="stale" role="alert">
          {stale}
        </p>
      )}
      <Standing stops={standingStops(panel, stops.locate)} />
      <main className="panel-main" data-pad={top?.pad} ref={work}>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
        <section className="panel-ask" aria-label={text.ask.region} tabIndex={0} ref={askRoom}>
          {top ? (
            <AskNow
              key={top.key}
              ask={top}
              now={now}
              numbers={numbers}
              fresh={panel.fresh}
              sending={sending}
              onBusy={(busy) => setHeld((h) => h && { ...h, busy })}
              confirm={panel.confirm}
              onAnswer={(key, put) => answer(top, key, put)}
              onFigures={(of) =>
                of.map(({ answer: { choice }, figure }) => {
                  const action = fill(choice, { figure });
                  return action && panel.act(action);
                })
              }
            />
          ) : (
            idle(
              facing,
              <NothingAsked
                words={idleWords(panel)}
                waits={post === "fireGuard" || post === "supervisor" ? [] : waits(panel, units)}
              />,
            )
          )}
          {remote}
          {below}
          {panel.sent.length > 0 && (
            <Suspense fallback={null}>
              <SentList panel={panel} numbers={numbers} />
            </Suspense>
          )}
          <Queue
            asks={asks.filter((a) => a !== top)}
            onPick={(key) => setHeld({ key, over: asks[0]?.key ?? null, busy: false })}
          />
          {children}
          <Suspense fallback={<div className="air-to-come" data-asking="true" />}>
            <AirKeys panel={panel} />
          </Suspense>
        </section>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
        <section className="panel-plan" aria-label={text.plan.region} tabIndex={0}>
          <Plan
            view={plan}
            facing={facing}
            words={facingWords(facing, post, text)}
            onFacing={post === "cockpit" ? undefined : setFacing}
            turnWords={facing === "nose" ? text.plan.turnToTail : text.plan.turnToNose}
            onEngine={engine.open}
          />
          <Suspense fallback={null}>
            {(state.stage === "plan" || state.stage === "brief") && <BriefNotes aircraft={state.aircraft} />}
            <PlanNotes state={state} now={now} words={words} />
            {beside}
            <WorkedOut panel={panel} facing={facing} />
          </Suspense>
        </section>
      </main>
      <OpenEngine panel={panel} opened={engine} />
      <footer className="panel-foot">
        <StopSheets panel={panel} keys={stops} numbers={numbers} />
        <Stops actions={stops.actions} />
        <Caution short />
      </footer>
    </div>
  );
}

/** The sheet of the engine touched on the plan. */
function OpenEngine({ panel, opened }: { panel: Panel; opened: Opened<number> }) {
  const n = useNowOpen(opened);
  if (n === null) return null;
  return (
    <Suspense fallback={null}>
      <EngineSheet panel={panel} n={n} onClose={opened.close} />
    </Suspense>
  );
}

/** Returns one sentence for each other post that has an ask now. */
function waits({ state, post, now, words }: Panel, units: UnitChoice): string[] {
  return POSTS.filter((p) => p !== post).flatMap((p): string[] => {
    const first: AskView | undefined = askedOf(state, p, now)
      .filter((a) => a.weight < 4)
      .map((a) => askView(state, a, now, units, words))[0];
    return first ? [`${words.say.post(p)}: ${first.sentence}`] : [];
  });
}
