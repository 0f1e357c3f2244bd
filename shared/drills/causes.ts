import { ALERTS } from "../alerts/kinds.ts";
import type { SessionState } from "../session/state.ts";
import type { Drill, Trigger } from "../types/drill.ts";

/** Something that is there now and that the type ties a drill to. `ref` is the fire, the alert or the count. */
export interface DrillCause {
  drill: string;
  ref: number;
  engine: number | null;
}

/** Every cause of a drill that stands now; the first drill of the type with that trigger is the one. */
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
