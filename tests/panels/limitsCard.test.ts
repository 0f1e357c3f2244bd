import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { LimitsCard } from "../../web/pages/types/LimitsCard.tsx";

const type = demo.types.find((t) => t.id === "kestle-four");
if (!type) throw new Error("the demo has no Kestle");
const drawn = renderToStaticMarkup(createElement(LimitsCard, { type }));

it("[PAN-66] the page of a type draws and tells the figures of every gauge", () => {
  expect(drawn.match(/<svg/g)).toHaveLength(type.gauges.length);
  for (const { name, min, max, normalLow, normalHigh } of type.gauges) {
    const [, row = ""] = drawn.split(`<strong>${name}</strong>`);
    const [own = ""] = row.split("</li>");
    const said = /aria-label="([^"]*)"/.exec(own)?.[1] ?? "";
    const figures = [...own.matchAll(/<text[^>]*>([^<]*)</g)].map(([, figure]) => Number(figure));
    for (const figure of [min, max, normalLow, normalHigh]) {
      if (figure === undefined) continue;
      expect(figures, name).toContain(figure);
      expect(said, name).toContain(String(figure));
    }
  }
});

it("[PAN-66] each figure stands at its own share of the scale", () => {
  const gauge = { ...type.gauges[0], id: "g", name: "G", scale: { from: 100, to: 300, step: 1 } };
  const only = { ...type, gauges: [{ ...gauge, min: 150, normalLow: 200, normalHigh: 250, max: 300 }] };
  const svg = renderToStaticMarkup(createElement(LimitsCard, { type: only as typeof type }));
  const at = Object.fromEntries(
    [...svg.matchAll(/<text x="([^"]*)"[^>]*>([^<]*)</g)].map(([, x, figure]) => [figure, Number(x)]),
  );
  const [start = 0, end = 0] = [/<line x1="([^"]*)"/.exec(svg)?.[1], /x2="([^"]*)"/.exec(svg)?.[1]].map(
    Number,
  );
  const share = (figure: number) => ((at[figure] ?? 0) - start) / (end - start);
  expect([150, 200, 250, 300].map(share)).toEqual([0.25, 0.5, 0.75, 1].map((s) => expect.closeTo(s)));
});
