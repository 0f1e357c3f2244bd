import { readFileSync } from "node:fs";
import { expect, it } from "vitest";

const css = readFileSync(new URL("../../web/styles/tokens.css", import.meta.url), "utf8");

/** The colour tokens of one mode; night overrides what sun sets. */
function tokens(mode: "sun" | "night"): Map<string, string> {
  const [sun = "", night = ""] = css.split(':root[data-mode="night"]');
  const read = (text: string) => [...text.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)];
  return new Map(
    [...read(sun), ...(mode === "night" ? read(night) : [])].map(([, name = "", hex = ""]) => [name, hex]),
  );
}

/** Relative luminance, WCAG 2.2. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
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
  ["paper", "ink"],
  ["on-danger", "danger-ground"],
  ["on-warning", "warning-ground"],
  ["on-must", "must-ground"],
];

it("the contrast formula gives WCAG's own example: #777777 on white is 4.48 to 1 (from memory)", () => {
  expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2);
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 5);
});

it.each((["sun", "night"] as const).flatMap((mode) => PAIRS.map((pair) => [mode, ...pair] as const)))(
  "[PAN-7] %s: %s on %s has a contrast of at least 7 to 1",
  (mode, text, ground) => {
    const held = tokens(mode);
    expect(contrast(held.get(text) ?? "", held.get(ground) ?? "")).toBeGreaterThanOrEqual(7);
  },
);

it.each(["sun", "night"] as const)("[PAN-7] %s: lines that carry meaning have at least 3 to 1", (mode) => {
  const held = tokens(mode);
  for (const line of ["rule", "rule-soft"])
    expect(contrast(held.get(line) ?? "", held.get("paper") ?? ""), line).toBeGreaterThanOrEqual(3);
});
