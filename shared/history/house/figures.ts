import { POSTS, type Post } from "../../protocol/posts.ts";
import type { Raised, StartRow, StartStop } from "../row.ts";
import { alertFigures } from "./alerts.ts";
import { grouped, largestFirst, summed } from "./counts.ts";
import type { HouseFigures } from "./schema.ts";
import { weekOf } from "./weeks.ts";

/** Fewer starts give no rates: those on which the charts of an engine stand. */
export const LEAST_STARTS = 20;

/** What one session of a house leaves: its starts, and what was raised before the first of them. */
export interface SessionStarts {
  /** The time of its plan. */
  at: number;
  rows: readonly StartRow[];
  /** Empty once a starter was engaged: it is in the first row then. */
  early: Raised;
}

/**
 * Returns how the starts of these sessions went. A start is one engagement of a starter. What delayed a session that
 * engaged none counts as well: that is the longest delay.
 * @param weeks the beginnings of the weeks to list
 */
export function houseFigures(sessions: readonly SessionStarts[], weeks: readonly number[]): HouseFigures {
  const rows = sessions.flatMap((s) => s.rows);
  const raised = sessions.flatMap((s): Raised[] => [s.early, ...s.rows]);
  const few = rows.length < LEAST_STARTS;
  const perStart = (count: number, of = rows.length) => (of < LEAST_STARTS ? null : count / of);
  const unstarted = (of: readonly SessionStarts[]) => of.filter((s) => s.rows.length === 0).length;
  const holds = raised.flatMap((r) => r.stops.filter(({ is }) => is === "hold"));
  const refusals = raised.flatMap((r) => r.refusals);
  const times = ({ times: n }: { times: number }) => n;
  return {
    sessions: sessions.length,
    unstarted: unstarted(sessions),
    starts: rows.length,
    few,
    least: LEAST_STARTS,
    weeks: weeks.map((from) => {
      const of = sessions.filter((s) => weekOf(s.at) === from);
      const starts = of.flatMap((s) => s.rows);
      const caught = starts.filter(({ reached }) => reached !== "cranked").length;
      return { from, starts: starts.length, caught, unstarted: unstarted(of) };
    }),
    posts: postFigures(holds, refusals),
    holds: largestFirst(
      grouped(holds, ({ reason }) => reason?.trim() || null).map(([reason, of]) => ({
        reason,
        times: of.length,
        heldMin: heldMinutes(of),
      })),
      times,
    ),
    conditions: largestFirst(
      grouped(
        refusals.flatMap(({ conditions }) => conditions),
        (id) => id,
      ).map(([condition, of]) => ({ condition, times: of.length })),
      times,
    ),
    equipment: equipmentFigures(rows, perStart),
    refusals: largestFirst(
      grouped(refusals, ({ reason }) => reason).map(([reason, of]) => ({ reason, times: of.length })),
      times,
    ),
    alerts: alertFigures(
      raised.flatMap((r) => r.alerts),
      perStart,
    ),
    touches: touchFigures(rows, perStart),
  };
}

/** Returns the minutes that the holds stood, each from its raising to its release; one that was not released adds none. */
function heldMinutes(holds: readonly StartStop[]): number {
  return summed(holds, ({ at, ended }) => (ended === null ? 0 : ended - at)) / 60_000;
}

function postFigures(holds: readonly StartStop[], refusals: Raised["refusals"]): HouseFigures["posts"] {
  const of = (post: Post | null) => {
    const own = holds.filter((h) => h.post === post);
    const refused = refusals.filter((r) => r.post === post);
    return { post, holds: own.length, heldMin: heldMinutes(own), refusals: refused.length };
  };
  const all = [...POSTS, null].map(of).filter((p) => p.holds + p.refusals > 0);
  return largestFirst(all, (p) => p.holds + p.refusals);
}

/** Returns what delayed the starts of each piece of equipment, those with the most for each start first. */
function equipmentFigures(
  rows: readonly StartRow[],
  perStart: (count: number, of: number) => number | null,
): HouseFigures["equipment"] {
  const used = rows.flatMap((row) => [...new Set(row.equipment)].map((label) => ({ label, row })));
  const figures = grouped(used, ({ label }) => label).map(([label, all]) => {
    const holds = all.flatMap(({ row }) => row.stops.filter(({ is }) => is === "hold"));
    const refusals = summed(all, ({ row }) => row.refusals.length);
    const rateOf = perStart(holds.length + refusals, all.length);
    const counts = { label, starts: all.length, holds: holds.length, heldMin: heldMinutes(holds), refusals };
    return { ...counts, perStart: rateOf };
  });
  return largestFirst(figures, ({ holds, refusals, starts }) => (holds + refusals) / starts);
}

/** Returns the touches of presence by engine: by its serial number, and by its place where it has none. */
function touchFigures(
  rows: readonly StartRow[],
  perStart: (count: number, of: number) => number | null,
): HouseFigures["touches"] {
  const byEngine = grouped(rows, ({ serial, aircraft, n }) => serial ?? `${aircraft}\n${n}`);
  const figures = byEngine.flatMap(([, of]) => {
    const last = of.at(-1);
    if (!last) return [];
    const { aircraft, n, serial } = last;
    const touches = summed(of, (r) => r.touches);
    return [{ aircraft, n, serial, starts: of.length, touches, perStart: perStart(touches, of.length) }];
  });
  return largestFirst(figures, ({ touches, starts }) => touches / starts);
}
