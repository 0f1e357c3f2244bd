import type { SessionState } from "../session/state.ts";
import { lightningNow } from "../weather/lightning.ts";
import { cautions, type Figure, type FigureInput, notRead, ofType } from "./figure.ts";

/**
 * Returns the nearest flash that still counts, against the type's distance and wait. Null where the type has no rule.
 */
export function lightningFigure(state: SessionState, now: number): Figure | null {
  const rule = state.type.ramp?.lightning;
  const seen = lightningNow(state, now);
  if (!rule || !seen) return null;
  const last = [...(state.flashes ?? []), ...(state.fieldFlashes ?? [])].sort((a, b) => a.at - b.at).at(-1);
  const flash: FigureInput = last
    ? { name: "last flash", value: last.miles, unit: "mi", source: "seen from this session", at: last.at }
    : notRead("last flash");
  const base = {
    id: "lightning",
    inputs: [flash, ofType("stop within", rule.stopWithin), ofType("wait after the last", rule.resumeAfter)],
    equation: "miles = seconds from flash to thunder / 5",
    source: "sound runs a statute mile in about five seconds: US NWS teaching rule",
  };
  if (seen.state === "clear")
    return { ...base, words: "lightning.none", value: "none", unit: null, verdict: "good" };
  return {
    ...base,
    words: "lightning",
    value: seen.nearestMiles,
    unit: "mi",
    verdict: "bad",
    inputs: [
      ...base.inputs,
      {
        name: "wait left",
        value: (seen.resumeAt - now) / 60_000,
        unit: "min",
        source: "worked out",
        at: null,
      },
    ],
    ...cautions(seen.nearestMiles === null && "A flash of unknown distance counts as near."),
  };
}
