import { groundPowerVerdict } from "../power/groundPower.ts";
import type { SessionState } from "../session/state.ts";
import { cautions, type Figure, ofType, said } from "./figure.ts";

/** Returns ground power's volts against the band that applies now. */
export function groundPowerFigure(state: SessionState): Figure | null {
  const seen = groundPowerVerdict(state);
  if (!seen) return null;
  return {
    id: "groundPower",
    words: seen.band === "starting" ? "groundPowerStarting" : "groundPower",
    value: seen.volts.value,
    unit: seen.volts.unit,
    verdict: seen.within ? "good" : "bad",
    inputs: [
      said("ground power volts", seen.volts, seen.by),
      ofType("least", seen.min),
      ofType("most", seen.max),
    ],
    equation: "least <= volts <= most",
    source:
      seen.band === "starting" ? "the starting band holds while an engine cranks" : "the steady band holds",
    ...cautions(
      state.type.groundPower.starting === undefined &&
        "The type gives no band for cranking: the steady one holds all the time.",
    ),
  };
}
