import { expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { isGuessable } from "../../server/auth/guessable.ts";

// Among the most used six-figure PINs in every list of leaked ones (from memory): runs, one figure, pairs, triples.
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
])("[AUT-8] %s is refused for a new person", (pin) => expect(isGuessable(pin)).toBe(true));

it("[AUT-8] leaves others, the demo's among them", () => {
  for (const pin of [
    "271828",
    "90210377",
    "135790",
    "112233",
    "correct horse",
    ...demo.people.map((p) => p.pin),
  ])
    expect(isGuessable(pin), pin).toBe(false);
});
