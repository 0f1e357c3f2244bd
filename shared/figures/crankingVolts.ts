import { crankingSource, voltsExpected } from "../power/crankingSource.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { sourceCaution, sourceInputs } from "./crankingSource.ts";
import { cautions, type Figure, ofType, read } from "./figure.ts";

const EQUATION = "V = Voc - I (Rint + Rcable)";
const SOURCE = "Ohm's law; batteries side by side as one source";

/** Returns the lowest volts to expect when this engine's starter breaks away, on the present power source. */
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
  const inputs = [...sourceInputs(state, rules), ...limits];
  const volts = voltsExpected(state);
  if (!volts.ok) return { ...base, value: null, verdict: "bad", inputs, ...cautions(volts.why) };
  const verdict = volts.value < rules.leastVolts.value ? "bad" : "good";
  return {
    ...base,
    value: volts.value,
    verdict,
    detail: state.groundPower.is === "on" ? "on ground power" : "on batteries",
    inputs,
    ...cautions(sourceCaution(state, rules)),
  };
}

/**
 * Returns the lowest volts seen at this engine's last attempt, with the volts expected when its starter was engaged.
 */
export function seenVolts(state: SessionState, engine: number): Figure | null {
  const rules = state.type.electrical;
  const use = engineOf(state, engine)?.starter.at(-1);
  const lowest = use?.lowest;
  if (!rules || !use || !lowest) return null;
  const expected = use.expected ?? null;
  const difference = expected === null ? null : lowest.value - expected;
  const { surprise, leastVolts } = rules;
  const surprising = surprise && difference !== null && Math.abs(difference) > surprise.value;
  const verdict = lowest.value < leastVolts.value ? "bad" : surprising ? "caution" : "good";
  return {
    id: `seenVolts:${engine}`,
    words: "seenVolts",
    value: lowest.value,
    unit: "V",
    verdict,
    ...(difference === null ? {} : { detail: beside(difference) }),
    inputs: [
      read("lowest volts while cranking", lowest),
      {
        name: "volts expected",
        value: expected,
        unit: "V",
        source: expected === null ? "could not be worked out then" : "worked out as the starter was engaged",
        at: use.on,
      },
      { name: "difference", value: difference, unit: "V", source: "worked out", at: null },
      ofType("least volts", leastVolts),
      ...(surprise ? [ofType("difference that should be looked into", surprise)] : []),
    ],
    equation: "seen - expected",
    source: SOURCE,
    ...cautions(surprising && "Far from what was expected: look at plug, cable, brushes and batteries."),
  };
}

function beside(difference: number): string {
  const volts = Math.abs(difference).toFixed(1);
  if (volts === "0.0") return "as expected";
  return `${volts} V ${difference < 0 ? "below" : "above"} what was expected`;
}
