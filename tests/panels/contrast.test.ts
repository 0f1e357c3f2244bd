import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { type Light, NEXT_LIGHT } from "../../web/words/light.ts";

const styles = (file: string) => readFileSync(new URL(`../../web/styles/${file}`, import.meta.url), "utf8");
const css = styles("tokens.css");

const LIGHTS: readonly Light[] = ["sun", "indoor", "night"];

/** Returns the colour tokens of one light. */
function tokens(light: Light): Map<string, string> {
  const [, block = ""] = css.split(`:root[data-mode="${light}"] {`);
  const own = block.slice(0, block.indexOf("}"));
  return new Map(
    [...own.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map(([, name = "", hex = ""]) => [name, hex]),
  );
}

type Rgb = readonly [red: number, green: number, blue: number];

/** Returns red, green and blue as they are encoded, 0 to 1. */
function rgb(hex: string): Rgb {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255);
  return [r, g, b];
}

const each = (colour: Rgb, change: (part: number, at: number) => number): Rgb => {
  const [r, g, b] = colour;
  return [change(r, 0), change(g, 1), change(b, 2)];
};

/** Returns linear red, green and blue, 0 to 1. */
const linear = (colour: Rgb): Rgb =>
  each(colour, (c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));

/** Returns the relative luminance, WCAG 2.2. */
function luminance(colour: Rgb): number {
  const [r, g, b] = linear(colour);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: Rgb, b: Rgb): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const inverted = (colour: Rgb): Rgb => each(colour, (c) => 1 - c);

/** `hue-rotate(180deg)` of the Filter Effects specification: its matrix for a cosine of -1 and a sine of 0. */
function hueTurned([r, g, b]: Rgb): Rgb {
  const grey = 2 * (0.213 * r + 0.715 * g + 0.072 * b);
  return each([grey - r, grey - g, grey - b], (c) => Math.min(1, Math.max(0, c)));
}

const screened = (colour: Rgb, over: Rgb): Rgb => each(colour, (c, i) => 1 - (1 - c) * (1 - (over[i] ?? 0)));

/** The changes of every colour on the screen by the flash of an unacknowledged stop, as `notices.css` has them. */
const WASHES: readonly [name: string, light: Light, of: (colour: Rgb, strobe: Rgb) => Rgb][] = [
  ["inverted", "sun", (c) => hueTurned(inverted(c))],
  ["inverted", "indoor", (c) => hueTurned(inverted(c))],
  ["inverted by an old browser", "sun", (c) => inverted(c)],
  ["inverted by an old browser", "indoor", (c) => inverted(c)],
  ["under the red wash", "night", screened],
];

const PAIRS: [text: string, ground: string][] = [
  ...["ink", "ink-soft", "danger", "safe", "must", "warning"].flatMap((text): [string, string][] => [
    [text, "paper"],
    [text, "blank"],
  ]),
  ["ink", "shade"],
  ["ink-soft", "shade"],
  ["danger", "shade"],
  ["safe", "shade"],
  ["on-solid", "solid"],
  ["on-danger", "danger-ground"],
  ["on-warning", "warning-ground"],
  ["on-must", "must-ground"],
];

it("the contrast formula gives WCAG's own example: #777777 on white is 4.48 to 1 (from memory)", () => {
  expect(contrast(rgb("#777777"), rgb("#ffffff"))).toBeCloseTo(4.48, 2);
  expect(contrast(rgb("#000000"), rgb("#ffffff"))).toBeCloseTo(21, 5);
});

it.each(LIGHTS.flatMap((mode) => PAIRS.map((pair) => [mode, ...pair] as const)))(
  "[PAN-7] %s: %s on %s has a contrast of at least 7 to 1",
  (mode, text, ground) => {
    const held = tokens(mode);
    expect(contrast(rgb(held.get(text) ?? ""), rgb(held.get(ground) ?? ""))).toBeGreaterThanOrEqual(7);
  },
);

it.each(WASHES.flatMap(([name, light, of]) => PAIRS.map((pair) => [light, name, ...pair, of] as const)))(
  "[PAN-7, SNS-5] %s %s: %s on %s has a contrast of at least 7 to 1",
  (light, _name, text, ground, of) => {
    const held = tokens(light);
    const [strobe, front, back] = ["strobe", text, ground].map((n) => rgb(held.get(n) ?? ""));
    if (!strobe || !front || !back) throw new Error("no such colour");
    expect(contrast(of(front, strobe), of(back, strobe))).toBeGreaterThanOrEqual(7);
  },
);

it("[PAN-7] the washes are those of the style sheet", () => {
  const notices = styles("notices.css");
  const rule = (selector: string) => notices.split(`${selector} {`).map((r) => r.slice(0, r.indexOf("}")));
  expect(rule("\n.strobe")[1]).toContain("backdrop-filter: invert(1) hue-rotate(180deg)");
  expect(rule("  .strobe")[1]).toContain("mix-blend-mode: difference");
  const night = rule('[data-mode="night"] .strobe')[1];
  for (const line of ["background: var(--strobe)", "mix-blend-mode: screen", "backdrop-filter: none"])
    expect(night).toContain(line);
  for (const light of ["sun", "indoor"] as const) expect(tokens(light).get("strobe")).toBe("#ffffff");
});

/** Colours of things that hold no text, and the wash itself. */
const NO_TEXT = ["code-ground", "ink", "strobe"];

it("[PAN-7] every colour of text and every ground of the style sheets is held to 7 to 1, and every pair in one rule", () => {
  const rules = readdirSync(new URL("../../web/styles/", import.meta.url))
    .filter((file) => file !== "tokens.css")
    .flatMap((file) =>
      styles(file)
        .replaceAll(/\/\*[\s\S]*?\*\//g, "")
        .split("}"),
    )
    .map((rule) => ({
      text: /[{;\s]color:\s*var\(--([\w-]+)\)/.exec(rule)?.[1],
      ground: /[{;\s]background(?:-color)?:\s*var\(--([\w-]+)\)/.exec(rule)?.[1],
    }));
  const texts = new Set(PAIRS.map(([text]) => text));
  const grounds = new Set(PAIRS.map(([, ground]) => ground));
  expect(rules.filter(({ text }) => text !== undefined).length).toBeGreaterThan(60);
  expect(rules.filter(({ text }) => text !== undefined && !texts.has(text))).toEqual([]);
  const bare = (ground: string) => NO_TEXT.includes(ground) || ground === "veil" || grounds.has(ground);
  expect(rules.filter(({ ground }) => ground !== undefined && !bare(ground))).toEqual([]);
  const both = rules.filter(({ text, ground }) => text !== undefined && ground !== undefined);
  const known = ({ text, ground }: (typeof rules)[number]) =>
    PAIRS.some(([t, g]) => t === text && g === ground);
  expect(both.length).toBeGreaterThan(20);
  expect(both.filter((pair) => !known(pair))).toEqual([]);
});

it.each(LIGHTS)("[PAN-7] %s: lines that carry meaning have at least 3 to 1", (mode) => {
  const held = tokens(mode);
  for (const line of ["rule", "rule-soft", "danger", "must", "safe", "warning"])
    expect(contrast(rgb(held.get(line) ?? ""), rgb(held.get("paper") ?? "")), line).toBeGreaterThanOrEqual(3);
});

it("[VIS-1] the three lights name the same colours", () => {
  const names = LIGHTS.map((l) => [...tokens(l).keys()].sort().join());
  expect(names[0]?.split(",").length).toBeGreaterThan(20);
  expect(new Set(names).size).toBe(1);
});

it("[VIS-3] by night no surface is brighter than a twentieth of full light, and nothing holds more blue than red", () => {
  const night = tokens("night");
  for (const [name, hex] of night) {
    const [red, , blue] = linear(rgb(hex));
    expect(blue, name).toBeLessThanOrEqual(red);
    if (/ground$|^(paper|shade|blank|solid)$/.test(name) && name !== "code-ground")
      expect(luminance(rgb(hex)), name).toBeLessThanOrEqual(0.05);
    expect(luminance(rgb(hex)), name).toBeLessThanOrEqual(0.75);
  }
});

it("[VIS-1] shows nothing brighter while the panel changes to night colours", () => {
  const brightness = (l: Light) => luminance(rgb(tokens(l).get("paper") ?? ""));
  for (let light: Light = "sun"; light !== "night"; light = NEXT_LIGHT[light])
    expect(brightness(NEXT_LIGHT[light])).toBeLessThan(brightness(light));
  expect(NEXT_LIGHT.night).toBe("sun");
});
