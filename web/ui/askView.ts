import type { Offer } from "../../shared/asks/ask.ts";
import type { HandForm } from "./figures/SignalFigure.tsx";
import type { PadId } from "./padId.ts";

/** Urgency of an ask. It sets a colour by IEC 60073 and always a word. */
export type Weight = "danger" | "alert" | "now" | "later";

/** One answer as a key. */
export interface AnswerKey {
  id: string;
  word: string;
  tone: Offer["tone"];
  choice: Offer;
  /** True when the answer may be sent without a fresh connection, because it reduces no safety. */
  offline: boolean;
  /** Age at which a weather report no longer describes the present, milliseconds. */
  reportMostAge: number;
}

/** One ask, ready for display. */
export interface AskView {
  key: string;
  weight: Weight;
  /** The order of asks in the session: 0 danger, 1 alert, 2 the start itself, 3 service and checks, 4 can wait. */
  rank: number;
  sentence: string;
  engine: number | null;
  /** Position of that engine, e.g. "port outer". */
  place: string | null;
  /** The sender and the time since, in words. */
  asked: string | null;
  since: number | null;
  /** The hand signal with the same meaning; null when no standard one exists. */
  hand: HandForm | null;
  dueAt: number | null;
  dueOf: string;
  answers: AnswerKey[];
  /** Unmet conditions, for an ask that must wait. */
  lacking: readonly string[];
  /** The pad that takes the figures of all `answers` together; null for an ask that is answered with one key. */
  pad: PadId | null;
}
