import { memo, type ReactNode, useDeferredValue } from "react";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { columnsOf, exchangeRows } from "../../../shared/paper/exchange.ts";
import { missingFor } from "../../../shared/plan/requirements.ts";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { ExchangeChart } from "../../ui/charts/ExchangeChart.tsx";
import { Strip, type StripView } from "../../ui/Strip.tsx";
import { useUnits } from "../../ui/units.ts";
import type { Words } from "../../words/catalogue.ts";
import { CheckList } from "../shared/CheckList.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";
import { ConditionsNow } from "./ConditionsNow.tsx";

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
  const words = panel.words.text.supervisor;
  return (
    <PanelFrame
      panel={panel}
      stale={stale}
      kind="supervisor"
      beside={
        <div className="exchange-live">
          <LiveExchange events={useDeferredValue(events)} words={panel.words} units={units} />
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
  words: Words;
  units: UnitChoice;
}

/** The live exchange chart. Drawn again only when the record grew, and deferred, so that a touch never waits for it. */
const LiveExchange = memo(function LiveExchange({ events, words: { say }, units }: ExchangeProps) {
  return <ExchangeChart columns={columnsOf(say)} rows={exchangeRows(events, say, units)} newest={NEWEST} />;
});

/** Requirements that still keep the session in its stage. */
function Missing({ panel }: { panel: Panel }) {
  const { state, words } = panel;
  const { say, text } = words;
  const units = useUnits();
  const missing = missingFor(state, panel.now);
  if (missing.length === 0) return null;
  return (
    <section className="missing" aria-label={text.supervisor.missing}>
      <h3>{text.supervisor.before(say.stage(state.stage).toLowerCase())}</h3>
      <ul>
        {missing.map((code) => (
          <li key={code}>{missingWords(state, code, units, words)}</li>
        ))}
      </ul>
    </section>
  );
}

/** Returns a requirement in words, with the type's own names in place of its ids. */
function missingWords(state: SessionState, code: string, units: UnitChoice, { say, text }: Words): string {
  const { supervisor } = text;
  const [kind, a = "", b = ""] = code.split(":");
  if (kind === "check") return state.type.checks.find((c) => c.id === a)?.words ?? say.missing(code);
  if (kind === "gate") {
    const gauge = state.type.gauges.find((g) => g.id === b)?.name.toLowerCase() ?? b;
    const gate = state.type.warmUp.find((w) => w.gauge === b);
    if (gate && "riseOf" in gate)
      return supervisor.rise(a, gauge, writtenBoth(gate.riseOf, units, { difference: true }));
    return supervisor.least(a, gauge, gate ? writtenBoth(gate.atLeast, units) : "–");
  }
  return say.missing(code);
}
