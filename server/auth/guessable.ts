import { dictionary } from "@zxcvbn-ts/language-common";
import { POSTS } from "../../shared/protocol/posts.ts";

/** PINs and passwords that many people use or that stood in leaks, in small letters: some 42,000 of six signs or more. */
const COMMON = new Set(dictionary["passwords-common"]);

/** What anybody would try here first. */
const OURS = ["chockside", ...POSTS.map((post) => post.toLowerCase())];

/** Signs that must be there beside a word of ours. */
const BESIDE = 6;

/** Whether a PIN is among the first anybody tries. */
export function isGuessable(pin: string): boolean {
  const small = pin.toLowerCase();
  if (COMMON.has(small) || isPattern(pin)) return true;
  return OURS.some((word) => small.includes(word) && pin.length < word.length + BESIDE);
}

/** One to three signs over and over, or a run of signs up or down. */
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
