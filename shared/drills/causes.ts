import { ALERTS } from "../alerts/kinds.ts";
import type { SessionState } from "../session/state.ts";
import { refsOf, seatsOf } from "../stops/fireSeats.ts";
import type { Drill, Trigger } from "../types/drill.ts";

/** A present cause for which the type has a drill. `ref` is the number of the fire, the alert or the blade count. */
export interface DrillCause {
  drill: string;
  ref: number;
  engine: number | null;
  /** For a fire: every number under which one of its cards may be open. */
  fire?: readonly number[];
}

/** Returns every present cause of a drill. */
export function drillCauses(state: SessionState): DrillCause[] {
  const cause = (trigger: Trigger, ref: number, engine: number | null): DrillCause[] => {
    const drill = drillFor(state, trigger);
    return drill ? [{ drill: drill.id, ref, engine }] : [];
  };
  return [
    ...state.fires.flatMap((f) => {
      const fire = refsOf(f);
      const seats = seatsOf(f).flatMap(({ place, engine, ref }) => cause(`fire:${place}`, ref, engine));
      return seats.map((c) => ({ ...c, fire }));
    }),
    ...state.alerts.flatMap((a) => {
      const { trigger } = ALERTS[a.kind];
      return trigger !== null && a.active ? cause(trigger, a.id, a.engine) : [];
    }),
    ...state.engines.flatMap((e) =>
      e.blades?.resistance ? cause("blades:resistance", e.blades.by.seq, e.n) : [],
    ),
  ];
}

/** Returns the type's drill for a trigger: the first that has it. */
export function drillFor(state: SessionState, trigger: Trigger): Drill | undefined {
  return state.type.drills.find((d) => d.triggers.includes(trigger));
}

/**
 * Returns whether an open or ended card of this drill is about this cause: at its engine, or at the whole aircraft if the
 * fire's engine was not known yet.
 */
export function isCardOf(
  cause: DrillCause,
  card: { drill: string; engine: number | null; ref: number | null },
) {
  if (cause.drill !== card.drill) return false;
  if (cause.engine === card.engine) return true;
  return card.engine === null && card.ref !== null && cause.fire?.includes(card.ref) === true;
}
