import type { OutCause } from "../../protocol/equipmentKinds.ts";
import type { StartRow } from "../row.ts";

/** Things whose lives are counted in starts. */
export const LIVES_OF = ["starter", "cart", "extinguisher"] as const;
export type LivesOf = (typeof LIVES_OF)[number];

/** One life: from the first day in use, or the return to service after a failure, to a failure or to now. */
export interface Life {
  /** Its label, or the name of the starter. */
  id: string;
  /** Starts in which it was used. */
  starts: number;
  /** False while it is in use, and when it left for another reason than a failure. */
  failed: boolean;
  /** Server milliseconds of the last of these starts. */
  last: number;
}

/** A revision of a piece of equipment in the register. */
export interface EquipmentState {
  at: number;
  out: { cause: OutCause } | null;
}

/**
 * Returns the lives of a piece of equipment. It fails when the register takes it out of service as broken. It begins a
 * new life when it comes back. One that was used up, or taken out for another reason, has not failed. A life without a
 * start is left out: nothing is known of it.
 * @param states its revisions, the oldest first
 * @param rows starts, oldest first
 */
export function equipmentLives(
  id: string,
  states: readonly EquipmentState[],
  rows: readonly StartRow[],
): Life[] {
  const used = rows.filter((r) => r.equipment.includes(id));
  const lives: Life[] = [];
  let from: number | null = null;
  for (const { at, out } of states) {
    if (out === null) from ??= at;
    else if (from !== null) {
      lives.push(...lifeOf(id, used, from, at, out.cause === "broken"));
      from = null;
    }
  }
  if (from !== null) lives.push(...lifeOf(id, used, from, Number.POSITIVE_INFINITY, false));
  return lives;
}

function lifeOf(id: string, used: readonly StartRow[], from: number, to: number, failed: boolean): Life[] {
  const within = used.filter((r) => r.at >= from && r.at < to);
  const last = within.at(-1);
  return last === undefined ? [] : [{ id, starts: within.length, failed, last: last.at }];
}

/**
 * Returns the lives of starters, by the names that the register gave them when the starts were planned. One has failed
 * when the same engine starts with another one afterwards, and it is never used again: the register does not say why a
 * starter was changed.
 * @param rows starts, oldest first
 */
export function starterLives(rows: readonly StartRow[]): Life[] {
  const named = rows.filter((r) => r.starter !== null && r.serial !== null);
  const starters = [...new Set(named.map((r) => r.starter as string))];
  return starters.map((id) => {
    const own = named.filter((r) => r.starter === id);
    const last = own.at(-1) as StartRow;
    const failed = named.some((r) => r.serial === last.serial && r.starter !== id && r.at > last.at);
    return { id, starts: own.length, failed, last: last.at };
  });
}
