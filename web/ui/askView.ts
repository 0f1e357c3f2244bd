import type { Choice } from "../../shared/asks/ask.ts";
import type { FigureSpec } from "./figureSpec.ts";
import type { HandForm } from "./figures/SignalFigure.tsx";

/** How pressing, which is also a colour by IEC 60073 and always a word. */
export type Weight = "danger" | "alert" | "now" | "later";

/** One answer as a key. */
export interface AnswerKey {
  id: string;
  word: string;
  tone: Choice["tone"];
  choice: Choice;
  /** May be given without the link: it makes nothing less safe. */
  offline: boolean;
  figure: FigureSpec | null;
  /** Milliseconds after which a weather report says nothing of now. */
  reportMostAge: number;
}

/** One thing asked, ready to be drawn. */
export interface AskView {
  key: string;
  weight: Weight;
  /** The core's order: 0 danger, 1 alert, 2 the start itself, 3 service and checks, 4 can wait. */
  rank: number;
  sentence: string;
  engine: number | null;
  /** Where that engine is, e.g. "port outer". */
  place: string | null;
  /** Who asks and since when, in words. */
  asked: string | null;
  since: number | null;
  /** The hand signal that says the same, where there is a standard one. */
  hand: HandForm | null;
  dueAt: number | null;
  dueOf: string;
  answers: AnswerKey[];
  /** What is missing, for an ask that has to wait. */
  lacking: readonly string[];
}
