import type { ConditionReport } from "../conditions/condition.ts";
import type { Post } from "./posts.ts";
import type { Stage } from "./stages.ts";

/** Closed list of why a session refuses. `words/refusals.ts` says each in words, with what to do. */
export const REFUSAL_REASONS = [
  "conditionsUnmet",
  "requirementsUnmet",
  "wrongPost",
  "wrongStage",
  "notQualified",
  "noSuchEngine",
  "engineNeeded",
  "wrongEngineState",
  "readBackWrong",
  "clearanceUsed",
  "clearanceVoid",
  "clearanceExpired",
  "noSuchSignal",
  "notAddressed",
  "signalClosed",
  "answerNotAllowed",
  "noAuthority",
  "notAtEngine",
  "stopOpen",
  "postHeld",
  "postVacant",
  "alreadyHoldsPost",
  "notOffered",
  "notYourHold",
  "secondPersonNeeded",
  "nothingOpen",
  "missingFigure",
  "wrongUnit",
  "outOfRange",
  "noSuchGauge",
  "noSuchCheck",
  "powerNotOn",
  "noEnvelope",
  "badOrder",
  "notWitnessable",
  "tooLate",
  "sessionOver",
  "aircraftBusy",
  "alreadyDone",
  "idReused",
  "notOverridable",
  "notShelvable",
  "noSuchDrill",
  "badReport",
] as const;
export type RefusalReason = (typeof REFUSAL_REASONS)[number];

/** A typed no. `unmet` names every condition that is not met, who can meet it, and how old its answer is. */
export interface Refusal {
  reason: RefusalReason;
  engine?: number | undefined;
  /** Posts that may do what was refused, or meet what is missing. */
  posts?: Post[] | undefined;
  stages?: Stage[] | undefined;
  unmet?: ConditionReport[] | undefined;
  /** Codes of stage requirements not met, e.g. `check:battery1`. */
  missing?: string[] | undefined;
  /** The figure or state that stood in the way. */
  found?: string | undefined;
}

export type CommandResult =
  | { status: "accepted"; seq: number }
  | { status: "duplicate"; seq: number; refusal?: Refusal }
  | { status: "refused"; seq: number | null; refusal: Refusal };
