import type { Fact } from "../../protocol/events.ts";
import type { Trigger } from "../../types/drill.ts";
import type { SessionState } from "../state.ts";

/** Drills the type ties to what is there now and that are not open yet. The first that fits is opened, once a cause. */
export function drillConsequences(state: SessionState): Fact[] {
  const open = (trigger: Trigger, ref: number, engine: number | null): Fact[] => {
    const drill = state.type.drills.find((d) => d.triggers.includes(trigger));
    if (!drill || state.drillsOpened.includes(ref)) return [];
    return [{ type: "drillStarted", drill: drill.id, ref, ...(engine === null ? {} : { engine }) }];
  };
  return [
    ...state.fires.flatMap((f) => (f.place === "notSaid" ? [] : open(`fire:${f.place}`, f.id, f.engine))),
    ...state.alerts.flatMap((a) => {
      switch (a.kind) {
        case "turningUncleared":
        case "guardMissing":
        case "oilFirstLate":
        case "oilNormalLate":
        case "groundPowerOutOfRange":
          return a.active ? open(`alert:${a.kind}`, a.id, a.engine) : [];
        default:
          return [];
      }
    }),
    ...state.engines.flatMap((e) =>
      e.blades?.resistance ? open("blades:resistance", e.blades.by.seq, e.n) : [],
    ),
  ];
}
