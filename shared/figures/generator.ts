import { isTurning } from "../engine/life.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { type Figure, ofType, read } from "./figure.ts";

/** Returns the load of a turning engine's generator, percent of its rating; null where the type gives no rating. */
export function generatorFigure(state: SessionState, n: number): Figure | null {
  const rules = state.type.electrical?.generator;
  const engine = engineOf(state, n);
  const drives = state.type.engines.find((e) => e.n === n)?.accessories.includes("generator") ?? false;
  if (!rules || !engine || !drives || !isTurning(engine.life)) return null;
  const { gauge, rating, most } = rules;
  const name = state.type.gauges.find((g) => g.id === gauge)?.name ?? gauge;
  const load = engine.readings[gauge] ?? null;
  const percent = load === null ? null : (load.value * 100) / rating.value;
  return {
    id: `generator:${n}`,
    words: "generator",
    value: percent,
    unit: "percent",
    verdict:
      percent === null
        ? "unknown"
        : percent > 100
          ? "bad"
          : most && percent > most.value
            ? "caution"
            : "good",
    inputs: [
      read(`${name}, number ${n}`, load),
      ofType("generator's rating", rating),
      ...(most ? [ofType("load at most, all the time", most)] : []),
    ],
    equation: "load / rating",
    source: "the generator's plate, as the type gives it",
  };
}
