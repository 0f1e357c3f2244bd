import { say } from "../../shared/words/es.ts";
import { text } from "./es/text.ts";
import type { Words } from "./words.ts";

export const spanish: Words = { say, text };
