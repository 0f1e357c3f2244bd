import type { Language } from "../../shared/words/language.ts";
import { settings as english, type SettingsWords } from "./en/settings.ts";
import { settings as spanish } from "./es/settings.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages that use it. */
const WORDS: Readonly<Record<Language, SettingsWords>> = { en: english, es: spanish };

export const useSettingsWords = (): SettingsWords => WORDS[useWords().say.language];
