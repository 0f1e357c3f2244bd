import type { StandingItem } from "../protocol/standing.ts";
import type { SessionState } from "../session/state.ts";
import type { KnownStanding } from "./known.ts";

/**
 * Ids of stops and drills from the aircraft's record begin here. No session reaches this many events, so these ids
 * never equal one of the session's own.
 */
const FOREIGN = 1_000_000_000;

/** Returns the id that item `no` of the record has in a session. */
export function foreignId(no: number): number {
  return FOREIGN + no;
}

/** Returns the number of the record's item that has this id in a session. */
export function itemNo(id: number): number {
  return id - FOREIGN;
}

/** Returns whether a stop or a drill of this id came from the aircraft's record. */
export function isForeign(id: number): boolean {
  return id >= FOREIGN;
}

/** Returns the numbers of the record's items that this session was told of and has since ended. */
export function endedHere(state: SessionState): number[] {
  const { standing } = state;
  if (!standing) return [];
  const gone = standing.told.filter((i) => !stands(state, standing, i)).map((i) => i.no);
  return [...new Set([...standing.endedHere, ...gone])].sort((a, b) => a - b);
}

function stands(state: SessionState, standing: KnownStanding, { no, item }: StandingItem): boolean {
  const has = (list: readonly { id: number }[]) => list.some((one) => one.id === foreignId(no));
  switch (item.is) {
    case "hold":
      return has(state.holds);
    case "cut":
      return has(state.cuts);
    case "fire":
      return has(state.fires);
    case "drill":
      return has(state.drills);
    case "hands":
      return standing.hands.some((h) => h.no === no);
    case "leave":
      return (standing.leaves ?? []).some((l) => l.no === no);
    case "turning":
    case "unseen":
      return standing.turning.some((t) => t.no === no);
    case "defect":
      return state.defects.some((d) => d.no === no);
  }
}
