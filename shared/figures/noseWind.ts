import { windOnNose, worstOnNose, worstWind } from "../models/weather/wind.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy, type Weather } from "../weather/weather.ts";
import { cautions, type Figure, type FigureInput, notRead, ofType, said } from "./figure.ts";

export const windInput = (seen: Weather) => said("wind", { value: seen.windKt, unit: "kt" }, seenBy(seen));

const planned = (state: SessionState): FigureInput => ({
  name: "heading of the nose, degrees",
  value: state.headingDeg ?? null,
  unit: null,
  source: state.headingDeg === undefined ? "not planned" : "the plan",
  at: null,
});

function directionInputs(seen: Weather): FigureInput[] {
  const { name, at } = seenBy(seen);
  const degrees = (what: string, value: number | string): FigureInput => ({
    name: what,
    value,
    unit: null,
    source: `said by ${name}`,
    at,
  });
  const { fromDeg, swing } = seen;
  return [
    fromDeg === null ? notRead("wind from") : degrees("wind from, degrees", fromDeg),
    ...(swing ? [degrees("wind swings between, degrees", swing.join(", "))] : []),
  ];
}

/** The wind on the nose as far as it is known: the components, and whether one of them can be on either side. */
interface OnNose {
  /** Positive ahead, negative behind; the least ahead where the direction can be several. */
  head: number;
  cross: number;
  side: "port" | "starboard" | "either";
}

function onNose(speed: number, seen: Weather, heading: number): OnNose {
  const { fromDeg, swing = null } = seen;
  if (fromDeg !== null && swing === null) {
    const { head, cross } = windOnNose({ fromDeg, speed }, heading);
    return { head, cross: Math.abs(cross), side: cross < 0 ? "port" : "starboard" };
  }
  const [from, to] = swing ?? [0, 360];
  const { leastHead } = worstOnNose(speed, from, to, heading);
  const { tail, cross } = worstWind(speed, { fromDeg, swing }, heading);
  return { head: tail > 0 ? -tail : leastHead, cross, side: "either" };
}

/** Returns the wind along and across the nose, of the gust where there is one and of the worst direction it can have. */
export function noseWindFigures(state: SessionState, seen: Weather): Figure[] {
  const { tailMax, crossMax } = state.type.wind;
  const gust =
    seen.gustKt === null ? notRead("gust") : said("gust", { value: seen.gustKt, unit: "kt" }, seenBy(seen));
  const inputs = [windInput(seen), gust, ...directionInputs(seen), planned(state)];
  const speed = Math.max(seen.windKt, seen.gustKt ?? 0);
  const { headingDeg } = state;
  const on = headingDeg === undefined ? null : onNose(speed, seen, headingDeg);
  const unseen = seen.fromDeg === null && !seen.swing && speed > 0;
  const told = cautions(
    !on && "The heading of the nose is not planned.",
    on && unseen && "The wind's direction is not known: the worst one counts.",
    on && seen.swing && "The wind's direction swings: the worst of it counts.",
  );
  const base = { unit: "kt" as const, source: "the gust counts where one is reported", ...told };
  const behind = on ? Math.max(0, -on.head) : 0;
  return [
    {
      ...base,
      id: "headWind",
      words: behind > 0 ? "tailWind" : "headWind",
      value: on ? Math.abs(on.head) : null,
      verdict: !on ? "unknown" : !tailMax ? "none" : behind > tailMax.value ? "bad" : "good",
      inputs: tailMax ? [...inputs, ofType("most from behind", tailMax)] : inputs,
      equation: "head = V cos(from - heading)",
    },
    {
      ...base,
      id: "crossWind",
      words: `crossWind.${on?.side ?? "either"}`,
      value: on?.cross ?? null,
      verdict: !on ? "unknown" : !crossMax ? "none" : on.cross > crossMax.value ? "bad" : "good",
      inputs: crossMax ? [...inputs, ofType("most across", crossMax)] : inputs,
      equation: "cross = V sin(from - heading)",
    },
  ];
}
