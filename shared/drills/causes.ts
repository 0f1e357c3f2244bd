import { ALERTS } from "../alerts/kinds.ts";
import type { SessionState } from "../session/state.ts";
import type { Drill, Trigger } from "../types/drill.ts";

/** A present cause for which the type has a drill. `ref` is the number of the fire, the alert or the blade count. */
export interface DrillCause {
  drill: string;
  ref: number;
  engine: number | null;
}

/** Returns every present cause of a drill. The first drill of the type with the trigger is used. */
export function drillCauses(state: SessionState): DrillCause[] {
  const cause = (trigger: Trigger, ref: number, engine: number | null): DrillCause[] => {
    const drill: Drill | undefined = state.type.drills.find((d) => d.triggers.includes(trigger));
    return drill ? [{ drill: drill.id, ref, engine }] : [];
  };
  return [
    ...state.fires.flatMap((f) => (f.place === "notSaid" ? [] : cause(`fire:${f.place}`, f.id, f.engine))),
    ...state.alerts.flatMap((a) => {
      const { trigger } = ALERTS[a.kind];
      return trigger !== null && a.active ? cause(trigger, a.id, a.engine) : [];
    }),
    ...state.engines.flatMap((e) =>
      e.blades?.resistance ? cause("blades:resistance", e.blades.by.seq, e.n) : [],
    ),
  ];
}
