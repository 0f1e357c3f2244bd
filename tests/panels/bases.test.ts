import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { Bases } from "../../web/pages/types/Bases.tsx";
import { FOUR } from "../spec/aircraft.ts";

it("[TYP-33] approval counts the figures that rest on each basis, and names no basis without one", () => {
  const source = { basis: "anotherType", text: "Manual of a larger aircraft, p. 4" } as const;
  const type = { ...FOUR, orderSource: source };
  const figures = JSON.stringify(FOUR).split('"basis":"invented"').length - 1;
  const shown = renderToStaticMarkup(createElement(Bases, { type }));
  expect([...shown.matchAll(/<dt>([^<]*)<\/dt><dd>(\d+)<\/dd>/g)].map((m) => [m[1], Number(m[2])])).toEqual([
    ["About another type", 1],
    ["Invented", figures - 1],
  ]);
});
