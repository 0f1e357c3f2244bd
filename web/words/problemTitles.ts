import type { Language } from "../../shared/words/language.ts";
import { problems as english } from "./en/problems.ts";
import { problems as spanish } from "./es/problems.ts";

export type ProblemTitles = typeof english;

/** Both languages in one chunk: it is fetched after the panel itself. */
const TITLES: Readonly<Record<Language, ProblemTitles>> = { en: english, es: spanish };

export const problemTitles = (language: Language): ProblemTitles => TITLES[language];
