import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { engineStands, enginesSeen } from "../../shared/models/facing.ts";

interface Vectors {
  orders: { n: number; forward: number[]; nose: number[] }[];
  sides: { n: number; port: number[]; centre: number[]; starboard: number[] }[];
}
const vectors = JSON.parse(readFileSync(new URL("vectors/engines.json", import.meta.url), "utf8")) as Vectors;

describe("engine numbers by where one looks from (UK SI 2007/3468 Sch 8 r.63(5))", () => {
  it.each(vectors.orders)("[FAC-1] $n engines", ({ n, forward, nose }) => {
    expect(enginesSeen(n, "forward")).toEqual(forward);
    expect(enginesSeen(n, "nose")).toEqual(nose);
  });

  it.each(vectors.sides)("[FAC-2] the sides of $n engines", ({ n, ...sides }) => {
    const on = (side: string) => enginesSeen(n, "forward").filter((e) => engineStands(e, n).side === side);
    expect({ port: on("port"), centre: on("centre"), starboard: on("starboard") }).toEqual(sides);
  });

  it("[FAC-2] of four engines, 1 is port outboard, 2 port inboard, 3 starboard inboard, 4 starboard outboard", () => {
    expect([1, 2, 3, 4].map((n) => engineStands(n, 4))).toEqual([
      { side: "port", span: "outboard" },
      { side: "port", span: "inboard" },
      { side: "starboard", span: "inboard" },
      { side: "starboard", span: "outboard" },
    ]);
  });

  it("[FAC-2] the middle one of three on a side, and the only one on a side, are neither inboard nor outboard", () => {
    expect([1, 2, 3, 4, 5, 6].map((n) => engineStands(n, 6).span)).toEqual([
      "outboard",
      "middle",
      "inboard",
      "inboard",
      "middle",
      "outboard",
    ]);
    expect([1, 2].map((n) => engineStands(n, 2).span)).toEqual([null, null]);
    expect(engineStands(2, 3)).toEqual({ side: "centre", span: null });
  });

  it.each([0, 5, 1.5, Number.NaN])("[FAC-2] there is no engine %d of four", (n) => {
    expect(() => engineStands(n, 4)).toThrow(RangeError);
  });

  it.each([0, -1, 2.5])("[FAC-1] there is no aircraft of %d engines", (count) => {
    expect(() => enginesSeen(count, "nose")).toThrow(RangeError);
  });
});
