import type { Language } from "../../shared/words/language.ts";
import { type EquipmentPageWords, equipment as english } from "./en/equipment.ts";
import { equipment as spanish } from "./es/equipment.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages that use it. */
const WORDS: Readonly<Record<Language, EquipmentPageWords>> = { en: english, es: spanish };

export const useEquipmentWords = (): EquipmentPageWords => WORDS[useWords().say.language];
