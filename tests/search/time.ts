import { POSTS } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { TYPE } from "./model.ts";

/** Numbers this large are moments; smaller ones from `FIRST_ID` on are event numbers. */
export const MOMENTS = 100_000_000_000;

const DURATIONS = [...new Set(Object.values(TYPE.timing).flatMap((t) => (t ? [t.value * 1000] : [])))];
const { timing } = TYPE;
/** Time for which each report known to the search stays fresh. For an unknown report every duration is tried. */
const FRESH: Record<string, number[]> = {
  guard: [timing.guardInPlace.value * 1000],
  arcs: [timing.arcClear.value * 1000],
  brakes: [timing.brakes.value * 1000],
  groundPower: [timing.groundPower.value * 1000],
  returning: [(TYPE.stopping?.coolDown?.atIdle?.value ?? 0) * 1000],
  holds: [],
  cuts: [],
  fires: [],
  posts: [],
  overrides: [timing.override.value * 1000],
  defects: [],
  drills: [],
  weather: [],
  handling: [],
  offers: [],
  chocks: [],
  authorities: [],
  signals: [],
  alerts: [],
  readings: [],
  checks: [],
  card: [],
  allClearAt: [],
  liveSince: [],
};
const SILENT = timing.presenceHold.value * 1000;
const SKIPPED = new Set(["type", "ended", "at", "stageSince", "seq", "crew"]);

let now = 0;
let first = Number.POSITIVE_INFINITY;

/**
 * Returns the next moment at which time alone could change something, and the last moment before it. Both are on a grid
 * of whole seconds and one millisecond before each, so that an action on either side of every limit is tried. Empty
 * when nothing is due.
 */
export function nextMoments(state: SessionState, at: number, alerts: boolean): number[] {
  now = at;
  first = Number.POSITIVE_INFINITY;
  for (const key in state) {
    if (!SKIPPED.has(key) && (alerts || key !== "alerts"))
      scan(state[key as keyof SessionState], FRESH[key] ?? null, key === "engines");
  }
  if (state.liveSince !== null) {
    for (const post of POSTS) {
      const touched = state.posts[post]?.touchedAt;
      if (touched !== undefined) note(Math.max(touched, state.liveSince) + SILENT);
    }
  }
  if (first === Number.POSITIVE_INFINITY) return [];
  const before = first % 1000 === 0 ? first - 1 : first - 999;
  return before > at ? [before, first] : [first];
}

function scan(value: unknown, fresh: number[] | null, engines: boolean): void {
  if (typeof value === "number") {
    if (value < MOMENTS) return;
    note(value);
    if (!engines) for (const d of fresh ?? DURATIONS) note(value + d);
  } else if (typeof value === "object" && value !== null) {
    for (const key in value) {
      if (key === "basis" || key === "issuedBy" || key === "readings") continue;
      const part = (value as Record<string, unknown>)[key];
      scan(part, fresh, engines);
      if (engines && key === "off" && typeof part === "number") restFrom(part);
    }
  }
}

/** Adds a starter's rest, and the longer one that begins a new series. */
function restFrom(moment: number): void {
  for (const rung of TYPE.starter.ladder) note(moment + rung.rest.value * 1000);
  note(moment + TYPE.starter.resetAfter.value * 1000);
}

function note(moment: number): void {
  if (moment > now && moment < first) first = moment;
}
