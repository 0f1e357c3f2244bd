import { busVolts } from "../models/electrical/sag.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { crankingSource } from "./crankingSource.ts";
import { cautions, type Figure, ofType, read } from "./figure.ts";

const EQUATION = "V = Voc - I (Rint + Rcable)";
const SOURCE = "Ohm's law; batteries side by side as one source";

/** Lowest volts to be expected as this engine's starter breaks away on the source there is now. */
export function expectedVolts(state: SessionState, engine: number): Figure | null {
  const rules = state.type.electrical;
  if (!rules) return null;
  const base = {
    id: `expectedVolts:${engine}`,
    words: "expectedVolts",
    unit: "V" as const,
    equation: EQUATION,
    source: SOURCE,
  };
  const limits = [
    ofType("breakaway current", rules.starter.breakaway),
    ofType("least volts", rules.leastVolts),
  ];
  const from = crankingSource(state, rules);
  if (!from.ok) {
    return { ...base, value: null, verdict: "unknown", inputs: limits, ...cautions(from.why) };
  }
  const inputs = [...from.value.inputs, ...limits];
  const volts = busVolts(from.value.source, rules.starter.breakaway.value);
  if (!volts.ok) return { ...base, value: null, verdict: "bad", inputs, ...cautions(volts.why) };
  const verdict = volts.value < rules.leastVolts.value ? "bad" : "good";
  return { ...base, value: volts.value, verdict, inputs, ...cautions(from.value.caution) };
}

/** Lowest volts seen at this engine's last attempt, beside what was to be expected. */
export function seenVolts(state: SessionState, engine: number): Figure | null {
  const rules = state.type.electrical;
  const lowest = engineOf(state, engine)?.starter.at(-1)?.lowest;
  if (!rules || !lowest) return null;
  const expected = expectedVolts(state, engine);
  const difference = typeof expected?.value === "number" ? lowest.value - expected.value : null;
  const { surprise, leastVolts } = rules;
  const surprising = surprise && difference !== null && Math.abs(difference) > surprise.value;
  const verdict = lowest.value < leastVolts.value ? "bad" : surprising ? "caution" : "good";
  return {
    id: `seenVolts:${engine}`,
    words: "seenVolts",
    value: lowest.value,
    unit: "V",
    verdict,
    inputs: [
      read("lowest volts while cranking", lowest),
      { name: "volts expected", value: expected?.value ?? null, unit: "V", source: "worked out", at: null },
      { name: "difference", value: difference, unit: "V", source: "worked out", at: null },
      ofType("least volts", leastVolts),
      ...(surprise ? [ofType("difference that should be looked into", surprise)] : []),
    ],
    equation: "seen - expected",
    source: SOURCE,
    ...cautions(surprising && "Far from what was expected: look at plug, cable, brushes and batteries."),
  };
}
