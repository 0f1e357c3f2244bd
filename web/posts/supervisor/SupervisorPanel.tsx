import { memo, type ReactNode, useDeferredValue } from "react";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { columnsOf } from "../../../shared/paper/exchange.ts";
import { type Requirement, requirementCode } from "../../../shared/plan/requirement.ts";
import { requirementsOf } from "../../../shared/plan/requirements.ts";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { gaugeName } from "../../../shared/types/gaugeName.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { outcomesOf } from "../../../shared/words/outcomes.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { ExchangeChart } from "../../ui/charts/ExchangeChart.tsx";
import { Strip, type StripView } from "../../ui/Strip.tsx";
import { useUnits } from "../../ui/units.ts";
import type { Words } from "../../words/catalogue.ts";
import { laterWords, useLaterWords } from "../../words/later.ts";
import { CheckList } from "../shared/CheckList.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";
import { ConditionsNow } from "./ConditionsNow.tsx";
import { PostsLine } from "./PostsLine.tsx";
import { useExchangeRows } from "./useExchangeRows.ts";

interface Props {
  panel: Panel;
  stale: string | null;
  events: readonly SessionEvent[];
  /** Null until the server has sent the list of sessions. */
  strips: readonly StripView[] | null;
  /** Keys for the exchange chart, shown below it. */
  keys: ReactNode;
  onOpen(session: string): void;
}

const NEWEST = 60;

/**
 * The supervisor's panel: the current ask, the conditions of a clearance, the whole board, and the live exchange
 * chart.
 */
export function SupervisorPanel({ panel, stale, events, strips, keys, onOpen }: Props) {
  const units = useUnits();
  const words = useLaterWords().supervisor;
  return (
    <PanelFrame
      panel={panel}
      stale={stale}
      kind="supervisor"
      below={<PostsLine panel={panel} />}
      beside={
        <div className="exchange-live">
          <LiveExchange
            events={useDeferredValue(events)}
            type={panel.state.type}
            words={panel.words}
            units={units}
          />
          {keys}
        </div>
      }
    >
      {panel.state.stage === "starting" ? <ConditionsNow panel={panel} /> : <Missing panel={panel} />}
      <CheckList panel={panel} />
      <section className="board" aria-label={words.board} data-asking={strips === null || undefined}>
        <h3>{words.board}</h3>
        {strips?.map((s) => (
          <Strip key={s.id} strip={s} onOpen={() => onOpen(s.id)} />
        ))}
      </section>
    </PanelFrame>
  );
}

interface ExchangeProps {
  events: readonly SessionEvent[];
  type: AircraftType;
  words: Words;
  units: UnitChoice;
}

/** The live exchange chart. Drawn again only when the record grew, and deferred, so that a touch never waits for it. */
const LiveExchange = memo(function LiveExchange({ events, type, words: { say }, units }: ExchangeProps) {
  const rows = useExchangeRows(events, say, units, type);
  return <ExchangeChart columns={columnsOf(say)} rows={rows} newest={NEWEST} />;
});

/** Requirements that still keep the session in its stage. */
function Missing({ panel }: { panel: Panel }) {
  const { state, words } = panel;
  const { say } = words;
  const { supervisor } = useLaterWords();
  const units = useUnits();
  const missing = requirementsOf(state, panel.now);
  if (missing.length === 0) return null;
  return (
    <section className="missing" aria-label={supervisor.missing}>
      <h3>{supervisor.before(say.stage(state.stage).toLowerCase())}</h3>
      <ul>
        {missing.map((requirement) => (
          <li key={requirementCode(requirement)}>{missingWords(state, requirement, units, words)}</li>
        ))}
      </ul>
    </section>
  );
}

/** Returns a requirement in words, with the type's own names; for a gate also the figure to reach. */
function missingWords(
  { type }: SessionState,
  requirement: Requirement,
  units: UnitChoice,
  { say }: Words,
): string {
  if (requirement.is !== "gate") return outcomesOf(say).missing(requirement, type);
  const { supervisor } = laterWords(say.language);
  const engine = String(requirement.engine);
  const gauge = gaugeName(type, requirement.gauge);
  const gate = type.warmUp.find((w) => w.gauge === requirement.gauge);
  if (gate && "riseOf" in gate)
    return supervisor.rise(engine, gauge, writtenBoth(gate.riseOf, units, { difference: true }));
  return supervisor.least(engine, gauge, gate ? writtenBoth(gate.atLeast, units) : "–");
}
