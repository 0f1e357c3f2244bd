import type { RecordPerson } from "../../../shared/aircraft/decide.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { RecordAction } from "../../../shared/protocol/recordEvents.ts";
import type { Step } from "../../../shared/session/step.ts";
import type { PEOPLE } from "../model.ts";
import type { Ramp } from "./ramp.ts";

export type Who = keyof typeof PEOPLE;

/** One thing that can happen at the aircraft. `later`: the record hears of it after something else. */
export type Move =
  | { is: "act"; session: number; who: Who; action: Action; later: boolean }
  | { is: "contribute"; session: number }
  | { is: "office"; action: RecordAction; by: RecordPerson }
  | { is: "plan" };

/** The aircraft after a move, and the step of the session in which somebody acted. */
export interface Taken {
  ramp: Ramp;
  step: Step | null;
}
