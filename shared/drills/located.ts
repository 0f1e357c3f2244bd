import type { DrillRun, Fire, SessionState } from "../session/state.ts";
import { enginesOf, placesOf, refsOf } from "../stops/fireSeats.ts";
import { drillFor } from "./causes.ts";

/** Returns the standing fire that opened a drill. */
function fireOf(state: SessionState, { ref }: DrillRun): Fire | undefined {
  return ref === null ? undefined : state.fires.find((f) => refsOf(f).includes(ref));
}

/**
 * Returns the engine to show on a drill's card: its own, or the one engine that was named for its fire since. A card
 * opened for the whole aircraft goes on to bar every engine.
 */
export function engineOfRun(state: SessionState, run: DrillRun): number | null {
  if (run.engine !== null) return run.engine;
  const fire = fireOf(state, run);
  const [only = null, ...others] = fire ? enginesOf(fire) : [];
  return others.length === 0 ? only : null;
}

/**
 * Returns whether the card of a fire at no place said yet has done its work: the fire is out, or a place is known and
 * has a card of its own. Its steps are no longer asked. It stays open, and bars what it bars, until a person ends it.
 */
export function isOvertaken(state: SessionState, run: DrillRun): boolean {
  const drill = state.type.drills.find((d) => d.id === run.drill);
  if (run.ref === null || drill?.triggers.includes("fire:notSaid") !== true) return false;
  const fire = fireOf(state, run);
  if (!fire) return true;
  return placesOf(fire).some((place) => {
    const own = drillFor(state, `fire:${place}`);
    return own !== undefined && own.id !== run.drill;
  });
}
