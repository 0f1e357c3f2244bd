import type { Language } from "../../shared/words/language.ts";
import { register as english, type RegisterWords } from "./en/register.ts";
import { register as spanish } from "./es/register.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages of the register. */
const WORDS: Readonly<Record<Language, RegisterWords>> = { en: english, es: spanish };

export const useRegisterWords = (): RegisterWords => WORDS[useWords().say.language];
