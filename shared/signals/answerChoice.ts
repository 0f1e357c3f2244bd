import { type Choice, choice, type Need } from "../asks/ask.ts";
import type { Answer } from "../protocol/signals.ts";
import type { Signal } from "../session/state.ts";

type Word =
  | "received"
  | "willComply"
  | "authorise"
  | "authoriseIgnitionOff"
  | "readBack"
  | "stopped"
  | "unable";

/** Returns a key that answers a signal; `word` is its label. */
export function answerChoice(
  signal: Signal,
  answer: Answer,
  tone: Choice["tone"],
  { word = answer === "done" ? "stopped" : answer, need = null }: { word?: Word; need?: Need | null } = {},
): Choice {
  return choice(word, tone, { type: "answer", signal: signal.id, answer, channel: "panel" }, need);
}

export const receivedChoice = (signal: Signal): Choice => answerChoice(signal, "received", "yes");
export const unableChoice = (signal: Signal): Choice => answerChoice(signal, "unable", "no");
