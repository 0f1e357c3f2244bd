import type { Language } from "../../shared/words/language.ts";
import { type DeviceWords, devices as english } from "./en/devices.ts";
import { devices as spanish } from "./es/devices.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, DeviceWords>> = { en: english, es: spanish };

export const useDeviceWords = (): DeviceWords => WORDS[useWords().say.language];
