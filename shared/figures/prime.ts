import { primeFor } from "../models/prime.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { cautions, type Figure, type FigureInput, ofType, read } from "./figure.ts";
import { airInput } from "./temperature.ts";

/** Returns the prime of an engine that does not turn, in strokes or seconds; null where the type gives none. */
export function primeFigure(state: SessionState, n: number, now: number): Figure | null {
  const rules = state.type.prime;
  const engine = engineOf(state, n);
  if (!rules || !engine) return null;
  const gauge = rules.gauge === undefined ? undefined : engine.readings[rules.gauge];
  const stoodMs = engine.lastRanAt === null ? null : now - engine.lastRanAt;
  const prime = primeFor(rules, gauge ?? airTemperature(state), stoodMs);
  const stood: FigureInput = {
    name: "stood",
    value: stoodMs === null ? null : stoodMs / 3_600_000,
    unit: "h",
    source: stoodMs === null ? "nobody knows: it counts as long" : "last ran",
    at: engine.lastRanAt,
  };
  const bands = rules.colder ?? [];
  return {
    id: `prime:${n}`,
    words: prime.ok && prime.value.hot ? "prime.hot" : "prime",
    value: prime.ok ? prime.value.amount.value : null,
    unit: prime.ok ? prime.value.amount.unit : rules.amount.unit,
    verdict: prime.ok ? "none" : "unknown",
    inputs: [
      ...(rules.gauge === undefined ? [] : [read("engine's temperature", gauge ?? null)]),
      airInput(state),
      stood,
      ...bands.flatMap(({ upTo, amount }) => [
        ofType("up to and with", upTo),
        ofType("prime up to there", amount),
      ]),
      ofType("prime above", rules.amount),
      ...(rules.hot
        ? [ofType("hot within", rules.hot.within), ofType("prime when hot", rules.hot.amount)]
        : []),
    ],
    equation: "hot: ran within the time; otherwise the first band that reaches the temperature",
    source: "the type's table; colder takes more, hot little or none (FAA P-8740-13)",
    ...cautions(
      "No start at the first try may mean too much: then no more prime, clear it as the manual says.",
      !prime.ok && prime.why,
    ),
  };
}
