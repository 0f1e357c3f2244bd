import { isTurning } from "../engine/life.ts";
import { warmUpGate } from "../models/warmUp/gate.ts";
import { gateRules, warmUpSeries } from "../runUp/gates.ts";
import type { SessionState } from "../session/state.ts";
import { cautions, type Figure, type FigureInput, ofType, read } from "./figure.ts";

/**
 * Returns the time left to the warm-up's gates, its error, and the engine that all wait for. Null while nothing turns,
 * and in a return.
 */
export function warmUpFigure(state: SessionState, now: number): Figure | null {
  const gates = state.type.warmUp;
  const turning = state.engines.filter((e) => isTurning(e.life));
  if (state.returning || gates.length === 0 || turning.length === 0) return null;
  const from = Math.min(...turning.map((e) => e.lastRanAt ?? state.at));
  const judged = warmUpGate(
    gateRules(gates),
    turning.map((e) => warmUpSeries(e, gates, from)),
  );
  const base = {
    id: "warmUp",
    unit: "s" as const,
    equation:
      "T(t) = steady - rise e^(-rate t), fitted by least squares; left = ln(rise / (steady - gate)) / rate",
    source: "Newton's law of heating; Levenberg-Marquardt; one standard error of the fit alone",
  };
  const named = (id: string) => state.type.gauges.find((g) => g.id === id)?.name ?? id;
  const limits = gates.map((g) =>
    "riseOf" in g
      ? { ...ofType(`${named(g.gauge)}, rise`, g.riseOf), difference: true as const }
      : ofType(`${named(g.gauge)}, at least`, g.atLeast),
  );
  if (!judged.ok)
    return {
      ...base,
      words: "warmUp",
      value: null,
      verdict: "unknown",
      inputs: limits,
      ...cautions(judged.why),
    };
  const { open, decidedBy, left } = judged.value;
  const decider = turning.find((e) => e.n === decidedBy);
  const readings: FigureInput[] = decider
    ? [
        {
          name: "waited for",
          value: decider.n,
          unit: null,
          source: "longest time left, then coldest",
          at: null,
        },
        {
          name: "plus or minus",
          value: left?.plusMinus ?? null,
          unit: "s",
          source: "one standard error",
          at: null,
        },
        ...gates.map((g) =>
          read(`${named(g.gauge)}, number ${decider.n}`, decider.readings[g.gauge] ?? null),
        ),
      ]
    : [];
  const since = decider ? Math.max(0, ...gates.map((g) => decider.readings[g.gauge]?.at ?? 0)) : 0;
  const passed = since === 0 ? 0 : (now - since) / 1000;
  return {
    ...base,
    words: open ? "warmUp.open" : "warmUp",
    value: open ? 0 : left ? Math.max(0, left.seconds - passed) : null,
    verdict: open ? "good" : "none",
    ...(!open && decider ? { detail: waitedFor(decider.n, left) } : {}),
    inputs: [...readings, ...limits],
    ...cautions(
      !open && !left && "The readings cannot say yet how long: read again, and keep the power as it is.",
      !open && "Power changed midway is not in the error.",
    ),
  };
}

function waitedFor(n: number, left: { plusMinus: number } | null): string {
  const waited = `number ${n} is waited for`;
  return left === null ? waited : `plus or minus ${left.plusMinus.toFixed(0)} s; ${waited}`;
}
