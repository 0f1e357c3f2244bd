import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { type Light, NEXT_LIGHT } from "../../web/words/light.ts";

const css = readFileSync(new URL("../../web/styles/tokens.css", import.meta.url), "utf8");

const LIGHTS: readonly Light[] = ["sun", "indoor", "night"];

/** Returns the colour tokens of one light. */
function tokens(light: Light): Map<string, string> {
  const [, block = ""] = css.split(`:root[data-mode="${light}"] {`);
  const own = block.slice(0, block.indexOf("}"));
  return new Map(
    [...own.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map(([, name = "", hex = ""]) => [name, hex]),
  );
}

/** Returns linear red, green and blue, 0 to 1. */
function linear(hex: string): [number, number, number] {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return [r, g, b];
}

/** Returns the relative luminance, WCAG 2.2. */
function luminance(hex: string): number {
  const [r, g, b] = linear(hex);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const PAIRS: [text: string, ground: string][] = [
  ...["ink", "ink-soft", "danger", "safe", "must", "warning"].flatMap((text): [string, string][] => [
    [text, "paper"],
    [text, "blank"],
  ]),
  ["ink", "shade"],
  ["ink-soft", "shade"],
  ["on-solid", "solid"],
  ["on-danger", "danger-ground"],
  ["on-warning", "warning-ground"],
  ["on-must", "must-ground"],
];

it("the contrast formula gives WCAG's own example: #777777 on white is 4.48 to 1 (from memory)", () => {
  expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2);
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 5);
});

it.each(LIGHTS.flatMap((mode) => PAIRS.map((pair) => [mode, ...pair] as const)))(
  "[PAN-7] %s: %s on %s has a contrast of at least 7 to 1",
  (mode, text, ground) => {
    const held = tokens(mode);
    expect(contrast(held.get(text) ?? "", held.get(ground) ?? "")).toBeGreaterThanOrEqual(7);
  },
);

it.each(LIGHTS)("[PAN-7] %s: lines that carry meaning have at least 3 to 1", (mode) => {
  const held = tokens(mode);
  for (const line of ["rule", "rule-soft", "danger", "must", "safe", "warning"])
    expect(contrast(held.get(line) ?? "", held.get("paper") ?? ""), line).toBeGreaterThanOrEqual(3);
});

it("[VIS-1] the three lights name the same colours", () => {
  const names = LIGHTS.map((l) => [...tokens(l).keys()].sort().join());
  expect(names[0]?.split(",").length).toBeGreaterThan(20);
  expect(new Set(names).size).toBe(1);
});

it("[VIS-3] by night no surface is brighter than a twentieth of full light, and nothing holds more blue than red", () => {
  const night = tokens("night");
  for (const [name, hex] of night) {
    const [red, , blue] = linear(hex);
    expect(blue, name).toBeLessThanOrEqual(red);
    if (/ground$|^(paper|shade|blank|solid)$/.test(name) && name !== "code-ground")
      expect(luminance(hex), name).toBeLessThanOrEqual(0.05);
    expect(luminance(hex), name).toBeLessThanOrEqual(0.75);
  }
});

it("[VIS-1] shows nothing brighter while the panel changes to night colours", () => {
  const brightness = (l: Light) => luminance(tokens(l).get("paper") ?? "");
  for (let light: Light = "sun"; light !== "night"; light = NEXT_LIGHT[light])
    expect(brightness(NEXT_LIGHT[light])).toBeLessThan(brightness(light));
  expect(NEXT_LIGHT.night).toBe("sun");
});
