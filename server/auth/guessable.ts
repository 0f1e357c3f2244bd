import { dictionary } from "@zxcvbn-ts/language-common";
import { POSTS } from "../../shared/protocol/posts.ts";

/** Common and leaked PINs and passwords in lower case: about 42,000 of six or more characters. */
const COMMON = new Set(dictionary["passwords-common"]);

/** Words an attacker would try first on this server. */
const OURS = ["chockside", ...POSTS.map((post) => post.toLowerCase())];

/** Characters a PIN must have besides one of these words. */
const BESIDE = 6;

/** Returns true when the PIN is among the first an attacker would try. */
export function isGuessable(pin: string): boolean {
  const small = pin.toLowerCase();
  if (COMMON.has(small) || isPattern(pin)) return true;
  return OURS.some((word) => small.includes(word) && pin.length < word.length + BESIDE);
}

/** Returns true for one to three repeated characters, or a sequence up or down. */
function isPattern(pin: string): boolean {
  const steps = new Set(
    Array.from({ length: pin.length - 1 }, (_, i) => pin.charCodeAt(i + 1) - pin.charCodeAt(i)),
  );
  if (steps.size === 1 && [...steps].every((s) => Math.abs(s) <= 1)) return true;
  return [1, 2, 3].some(
    (n) =>
      pin ===
      pin
        .slice(0, n)
        .repeat(Math.ceil(pin.length / n))
        .slice(0, pin.length),
  );
}
