import { say } from "../../shared/words/en.ts";
import { asEnglish } from "../../shared/words/piece.ts";
import type { Words } from "./catalogue.ts";
import { text } from "./en/text.ts";

const NONE: ReadonlySet<string> = new Set();

/** English is in the first chunk. Every other language is a chunk of its own, fetched when it is chosen. */
export const english: Words = {
  say,
  text,
  problem: asEnglish,
  stateIn: (state) => state,
  leftAsWritten: () => NONE,
};
