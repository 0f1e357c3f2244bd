import { expect, it } from "vitest";
import { UNITS } from "../../shared/protocol/quantity.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { HELD, RULES, sourcesIn, standsIn, writtenIn } from "./written.ts";

const isUnit = (word: string) => word === "min" || UNITS.some((u) => u === word);

it("[LNG-7] what a refusal or a condition found is told in Spanish, each part of it", () => {
  const found = RULES.flatMap(sourcesIn).flatMap((file) =>
    writtenIn(file, (_, above) => standsIn(above) === "found"),
  );
  const parts = found.flatMap((f) => f.split(", ")).filter((p) => /\p{L}{2}/u.test(p));
  expect(parts.length).toBeGreaterThan(15);
  const bare = (found: string) => outcomesOf(spanish).refusal({ reason: "outOfRange", found });
  const left = parts.filter((part) => {
    const words =
      part
        .replaceAll(HELD, "")
        .match(/\p{L}{2,}/gu)
        ?.filter((w) => !isUnit(w)) ?? [];
    return words.length > 0 && bare(part) === bare("x").replace("x", part);
  });
  expect(left).toEqual([]);
});
