import { brakesSet, chocksIn } from "../conditions/wheels.ts";
import { isTurning } from "../engine/life.ts";
import { unmetForService } from "../leaves/conditions.ts";
import type { Requirement } from "../plan/requirement.ts";
import type { Stage } from "../protocol/stages.ts";
import type { SessionState } from "../session/state.ts";
import { notSeenStill } from "./unseen.ts";

/** The stages of a return after its brief. */
type StoppingStage = Extract<Stage, "arrival" | "stopping" | "stowing">;

/** Returns what is still to be met before a return may leave this stage. */
export function toStop(state: SessionState, stage: StoppingStage, now: number): Requirement[] {
  switch (stage) {
    case "arrival":
      return [...(state.returning?.onStand ? [] : [{ is: "onStand" } as const]), ...wheels(state, now)];
    case "stopping":
      return [...wheels(state, now), ...stopped(state)];
    case "stowing":
      return [
        ...stopped(state),
        ...of("remark", state.returning?.remarksDue ?? []),
        ...(state.handling ? of("handling", [state.handling.engine]) : []),
        ...(state.groundPower.is === "on" ? [{ is: "powerOff" } as const] : []),
      ];
  }
}

function stopped(state: SessionState): Requirement[] {
  const turning = state.engines.filter((e) => isTurning(e.life)).map((e) => e.n);
  return [
    ...of("stopped", turning),
    ...of("still", notSeenStill(state)),
    ...(state.returning?.switchesOff ? [] : [{ is: "switchesOff" } as const]),
  ];
}

function of(is: "stopped" | "still" | "remark" | "handling", engines: readonly number[]): Requirement[] {
  return engines.map((engine) => ({ is, engine }));
}

/**
 * Returns what is missing of brakes and chocks, as far as the type asks for them. While an inboard engine keeps people
 * from the wheels, the brakes alone hold the aircraft until it is stopped.
 */
function wheels(state: SessionState, now: number): Requirement[] {
  const braked = brakesSet.find(state, 0, now).is === "yes";
  const barred = unmetForService(state, "insertChocks", now).length > 0;
  const chocked = chocksIn.find(state, 0, now).is === "yes";
  const listed = (id: "brakesSet" | "chocksIn") => state.type.conditions.includes(id);
  const chocks = listed("chocksIn") && !chocked && !barred;
  return [
    // Brakes are heard once the chocks are in, and their pressure bleeds off.
    ...(listed("brakesSet") && !braked && !chocked
      ? [{ is: "condition", condition: "brakesSet" } as const]
      : []),
    ...(chocks ? [{ is: "condition", condition: "chocksIn" } as const] : []),
  ];
}
