import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { isGuessable } from "../../server/auth/guessable.ts";

describe("a new PIN", () => {
  // Among the most used six-figure PINs in every list of leaked ones (from memory): runs, one digit, pairs, triples.
  it.each([
    "123456",
    "654321",
    "012345",
    "000000",
    "111111",
    "121212",
    "696969",
    "123123",
    "1212121",
    "abcdef",
  ])("[AUT-8] is not %s, a run or a repetition", (pin) => expect(isGuessable(pin)).toBe(true));

  // High in any list of leaked passwords (from memory) but no pattern: only the list finds them.
  it.each(["password", "Dragon", "159753", "112233", "qwerty", "1qaz2wsx", "letmein"])(
    "[AUT-8] is not %s, which many people use",
    (pin) => expect(isGuessable(pin)).toBe(true),
  );

  it.each(["Chockside1", "12cockpit", "fireGuard", "supervisor7"])(
    "[AUT-8] is not %s, a word of ours with little beside it",
    (pin) => expect(isGuessable(pin)).toBe(true),
  );

  it("[AUT-8] is any other, the demo's among them", () => {
    const others = [
      "907163",
      "90210377",
      "no cockpit without rain",
      "gloves on",
      ...demo.people.map((p) => p.pin),
    ];
    for (const pin of others) expect(isGuessable(pin), pin).toBe(false);
  });
});
