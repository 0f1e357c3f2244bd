import { leftAsWritten, stateIn } from "../../shared/words/authored.ts";
import { say } from "../../shared/words/es.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import type { Words } from "./catalogue.ts";
import { problemPhrases } from "./es/problemPhrases.ts";
import { text } from "./es/text.ts";

export const spanish: Words = {
  say,
  text,
  problem: phraseBook(problemPhrases),
  stateIn: (state) => stateIn(state, "es"),
  leftAsWritten: (type) => leftAsWritten(type, "es"),
};
