import { askedOf } from "../../../shared/asks/asked.ts";
import { enginesSeen } from "../../../shared/models/facing.ts";
import { columnsOf, exchangeRows } from "../../../shared/paper/exchange.ts";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import type { SessionState } from "../../../shared/session/state.ts";

import { timeOfDay } from "../../../shared/words/dates.ts";
import { RemoteKeys } from "../../remote/RemoteKeys.tsx";
import { ExchangeChart } from "../../ui/charts/ExchangeChart.tsx";
import { facingWords, usualFacing } from "../../ui/plan/facing.ts";
import { Plan } from "../../ui/plan/Plan.tsx";
import { Stops } from "../../ui/Stops.tsx";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import { askView } from "../shared/askViews.ts";
import { Caution } from "../shared/Caution.tsx";
import { planView } from "../shared/marks.ts";
import type { Panel } from "../shared/model.ts";
import { PlanNotes } from "../shared/PlanNotes.tsx";
import { StopSheets } from "../shared/StopSheets.tsx";
import { standingStops } from "../shared/standing.ts";
import { useStops } from "../shared/useStops.ts";
import { Scrub } from "./Scrub.tsx";

interface Props {
  /** The present state; only the stops use it. */
  panel: Panel;
  /** The warning shown when the connection is not fresh; null while it is. */
  stale: string | null;
  events: readonly SessionEvent[];
  /** The state of the session at the past moment. */
  then: SessionState;
  onAt(seq: number): void;
  onNow(): void;
}

/**
 * The session at a past moment, marked as the past from edge to edge. Nothing in it can be answered; hold, cut and
 * fire are in their usual places and act on the present.
 */
export function PastPanel({ panel, stale, events, then, onAt, onNow }: Props) {
  const { words } = panel;
  const { say, text } = words;
  const { past } = useLaterWords();
  const units = useUnits();
  const at = then.at;
  const facing = usualFacing(panel.post);
  const shown = events.filter((e) => e.seq <= then.seq);
  const numbers = enginesSeen(panel.state.engines.length, facing);
  const keys = useStops(panel);
  const stops = standingStops({ ...panel, state: then, now: at, unrecorded: [] }, keys.locate);
  const asked = POSTS.flatMap((p): string[] => {
    const first = askedOf(then, p, at)[0];
    return first ? [`${say.post(p)}: ${askView(then, first, at, units, words).sentence}`] : [];
  });
  const moment = past.lead(timeOfDay(at), then.seq, panel.state.seq);
  return (
    <div className="panel" data-kind="past">
      {stale && (
        <p className="stale" role="alert">
          {stale}
        </p>
      )}
      <section className="past-banner" role="status">
        <strong>{past.title}</strong>
        <span>{moment}</span>
        <button type="button" className="answer" data-tone="yes" onClick={onNow}>
          {past.now}
        </button>
      </section>
      <Scrub at={then.seq} head={panel.state.seq} moment={moment} words={past} onAt={onAt} />
      <main className="panel-main">
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
        <section className="panel-plan" aria-label={text.plan.region} tabIndex={0}>
          <h2>{past.stage(say.stage(then.stage))}</h2>
          {stops.length > 0 && <PastList title={past.stops} lines={stops.map((s) => s.words)} />}
          <Plan
            view={planView(then, null, at, words)}
            facing={facing}
            words={facingWords(facing, panel.post, text)}
          />
          <PastList title={past.asked} lines={asked.length > 0 ? asked : [past.nothing]} />
          <PlanNotes state={then} now={at} words={words} />
        </section>
        <section className="past-chart">
          <ExchangeChart
            columns={columnsOf(say)}
            rows={exchangeRows(shown, say, units)}
            newest={Number.POSITIVE_INFINITY}
          />
        </section>
      </main>
      <RemoteKeys asked={null} fresh={false} busy={false} onHold={keys.actions.hold} onAnswer={() => {}} />
      <footer className="panel-foot">
        <StopSheets panel={panel} keys={keys} numbers={numbers} />
        <Stops actions={keys.actions} />
        <Caution short />
      </footer>
    </div>
  );
}

function PastList({ title, lines }: { title: string; lines: readonly string[] }) {
  return (
    <section className="past-list" aria-label={title}>
      <h3>{title}</h3>
      <ul>
        {lines.map((l) => (
          <li key={l}>{l}</li>
        ))}
      </ul>
    </section>
  );
}
