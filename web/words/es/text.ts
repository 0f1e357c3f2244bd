import type { Text } from "../en/text.ts";
import { keypad, language, signIn } from "./entry.ts";
import { caution, light } from "./seen.ts";

export const text: Text = { signIn, language, keypad, caution, light };
