import { say } from "../../shared/words/es.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import { problemPhrases } from "./es/problemPhrases.ts";
import { text } from "./es/text.ts";
import type { Words } from "./words.ts";

export const spanish: Words = { say, text, problem: phraseBook(problemPhrases) };
