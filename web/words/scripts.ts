import type { Language } from "../../shared/words/language.ts";
import { scripts as english, type ScriptWords } from "./en/scripts.ts";
import { scripts as spanish } from "./es/scripts.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the page of rehearsals. */
const WORDS: Readonly<Record<Language, ScriptWords>> = { en: english, es: spanish };

export const useScriptWords = (): ScriptWords => WORDS[useWords().say.language];
