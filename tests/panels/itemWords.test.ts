import { expect, it } from "vitest";
import type { Item } from "../../shared/protocol/standing.ts";
import { itemWords } from "../../web/pages/itemWords.ts";
import { wordsNow } from "../../web/words/words.ts";

const by = { name: "Wenna", post: null, seenFrom: null, at: Date.now(), seq: 2 };
const defect: Item & { is: "defect" } = {
  ...{ is: "defect", ref: 2, id: "d-1", words: "Oil leak", engine: 2, barsStart: true, by },
};
const deferred = { reason: "Watch it", by, person: "p-1" };
const said = (more: Partial<typeof defect>) => itemWords({ ...defect, ...more }, wordsNow()).split(":")[0];

it("[HSE-63] says of a deferred defect how long it is deferred, and that it blocks the start once that is over", () => {
  expect(said({})).toBe("A defect blocks the start");
  expect(said({ barsStart: false })).toBe("Defect");
  expect(said({ deferred: { ...deferred, starts: 3 }, startedSince: ["s-1"] })).toBe(
    "Defect, deferred for 2 starts",
  );
  expect(said({ deferred: { ...deferred, starts: 1 }, startedSince: ["s-1"] })).toBe(
    "A defect blocks the start",
  );
  expect(said({ deferred: { ...deferred, until: "2020-01-01" } })).toBe("A defect blocks the start");
  expect(
    said({ deferred: { ...deferred, starts: 3 }, mended: { reason: "Sealed", by, person: "p-1" } }),
  ).toBe("A defect blocks the start");
});
