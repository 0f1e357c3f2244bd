import type { Text } from "../en/text.ts";
import { keypad, language, signIn } from "./entry.ts";

export const text: Text = { signIn, language, keypad };
