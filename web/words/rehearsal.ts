import type { Language } from "../../shared/words/language.ts";
import { rehearsal as english, type RehearsalPageWords } from "./en/rehearsal.ts";
import { rehearsal as spanish } from "./es/rehearsal.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, RehearsalPageWords>> = { en: english, es: spanish };

export const useRehearsalWords = (): RehearsalPageWords => WORDS[useWords().say.language];
