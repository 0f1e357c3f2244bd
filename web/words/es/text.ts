import type { Text } from "../en/text.ts";
import { keypad, language, signIn } from "./entry.ts";
import { caution, light } from "./seen.ts";
import { worked } from "./worked.ts";

export const text: Text = { signIn, language, keypad, caution, light, worked };
