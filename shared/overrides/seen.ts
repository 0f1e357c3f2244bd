import type { Finding } from "../conditions/definition.ts";
import { barringDefects } from "../defects/barring.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { SeenAside } from "../protocol/seenAside.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns what two people see when they set a condition aside: the answer, the time of its report, its figure, and each
 * thing it names.
 */
export function seenAside(
  state: SessionState,
  condition: ConditionId,
  engine: number,
  { is, at, found }: Finding,
  now: number,
): SeenAside {
  const things = thingsOf(state, condition, engine, now);
  return { is, at, ...(found === undefined ? {} : { found }), ...(things === null ? {} : { things }) };
}

/**
 * Returns true while an unmet condition is no newer and no worse than what was seen. Of several things, such as
 * defects, one may go; no other may come.
 */
export function covered(seen: SeenAside, present: SeenAside): boolean {
  if (present.is === "yes") return true;
  // The report that was seen may become stale.
  const aged = seen.is === "yes" && present.is === "stale";
  if (present.is !== seen.is && !aged) return false;
  if (present.things !== undefined) return present.things.every((t) => seen.things?.includes(t) === true);
  return present.at === seen.at && present.found === seen.found;
}

/** Returns each thing that the answer is about, if there may be several; null where the answer is one report. */
function thingsOf(state: SessionState, condition: ConditionId, engine: number, now: number): string[] | null {
  switch (condition) {
    case "noBarringDefect":
      return barringDefects(state, engine, now).map((d) => d.id);
    case "othersSettled":
      return state.engines.flatMap((e) => {
        if (e.n === engine) return [];
        if (e.life.is === "fire") return [`fire ${e.n}`];
        return e.life.is === "caught" || e.life.is === "running" ? [String(e.n)] : [];
      });
    case "postsCurrent":
      return Object.values(state.posts).flatMap((h) =>
        h !== null && h.currentUntil !== null && now >= h.currentUntil ? [h.id] : [],
      );
    default:
      return null;
  }
}
