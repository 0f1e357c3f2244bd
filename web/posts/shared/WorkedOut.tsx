import { useMemo, useState } from "react";
import { figuresOfAircraft, figuresOfEngine } from "../../../shared/figures/all.ts";
import type { Figure } from "../../../shared/figures/figure.ts";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { nextInOrder } from "../../../shared/session/decide/start.ts";
import { plain, type SessionState } from "../../../shared/session/state.ts";
import { FIGURE_WORDS, VERDICT_WORDS } from "../../../shared/words/en/figures.ts";
import { workedOut, workedOutBoth } from "../../../shared/words/quantity.ts";
import { ago } from "../../ui/numbers.ts";
import "../../styles/worked.css";
import { useUnits } from "../../ui/units.ts";
import { WorkedFigures, type WorkedRow } from "../../ui/WorkedFigures.tsx";
import type { Panel } from "./model.ts";

const BUSY = ["requested", "clear", "cranking", "caught", "running"];

/**
 * What is worked out of the engine at hand, and of the aircraft when asked for. Its own piece of script: the models
 * are not needed for the first look at a panel.
 */
export function WorkedOut({ panel }: { panel: Panel }) {
  const { state, now } = panel;
  const units = useUnits();
  const [open, setOpen] = useState(false);
  const second = Math.floor(now / 1000) * 1000;
  const n = engineAtHand(state);
  const engine = useMemo(
    () => (n === null ? [] : figuresOfEngine(state, n, second).map((f) => row(f, second, units))),
    [state, n, second, units],
  );
  // Geometry and order are costly and change with what happens, not with the second.
  const aircraft = useMemo(
    () => (open ? figuresOfAircraft(state, state.at).map((f) => row(f, state.at, units)) : []),
    [state, open, units],
  );
  return (
    <>
      {n !== null && <WorkedFigures title={`Number ${n}: worked out`} rows={engine} />}
      <button type="button" className="worked-more" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? "Fewer figures" : "Aircraft, air, order: worked out"}
      </button>
      {open && <WorkedFigures title="Aircraft, air, order: worked out" rows={aircraft} />}
    </>
  );
}

/** The engine being started, else the next of the order, else the last one still warming up. */
function engineAtHand(state: SessionState): number | null {
  const busy = state.engines.find((e) => BUSY.includes(plain(e.life).is));
  return busy?.n ?? nextInOrder(state) ?? state.order.at(-1) ?? null;
}

function row(f: Figure, now: number, units: UnitChoice): WorkedRow {
  const shown = workedOut(f.value, f.unit, units);
  const own = workedOut(f.value, f.unit);
  return {
    id: f.id,
    name: FIGURE_WORDS[f.words] ?? f.words,
    // A figure whose name already says it, such as "Preheat: not required", shows no value besides.
    value: f.words.endsWith(`.${f.value}`) ? "" : shown,
    own: own === shown ? null : own,
    verdict: f.verdict,
    verdictWord: VERDICT_WORDS[f.verdict],
    caution: f.caution ?? null,
    inputs: f.inputs.map((i) => ({
      name: i.name,
      value: workedOutBoth(i.value, i.unit, units, i.difference),
      source: i.source,
      age: i.at === null ? "" : ago(now - i.at),
    })),
    equation: f.equation,
    source: f.source,
  };
}
