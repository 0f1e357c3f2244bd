import { readFileSync } from "node:fs";
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import type { Light } from "../../web/words/light.ts";

const IN_PAGE = readFileSync(new URL("inPage.js", import.meta.url), "utf8");
const call = (what: string) =>
  `(() => { ${IN_PAGE.replace("({ controls, surfaces, small, flashing, layout, covered });", `return ${what};`)} })()`;

/** 22 mm and 30 mm at 96 px per inch, less the rounding of layout. */
const KEY = 83;
const STOP = 113;

/** One control as drawn: its sides in CSS pixels, and every contrast that a person needs to use it. */
export interface Measured {
  name: string;
  width: number;
  height: number;
  /** A stop: hold, cut or fire. */
  stop: boolean;
  /** The least contrast of its text with the ground behind; null without text. */
  text: number | null;
  /** The least contrast of a shape drawn in it with that ground; null without one. */
  shape: number | null;
  /** The contrast of its edge with the ground outside or inside, whichever is better; null without an edge. */
  edge: number | null;
  disabled: boolean;
}

/** A filled area as drawn that is larger than a mark. */
export interface Surface {
  name: string;
  /** Relative luminance, 0 to 1. */
  luminance: number;
  /** Linear blue and red, 0 to 1. */
  blue: number;
  red: number;
}

/**
 * Returns every control on the page as the browser draws it: sides from layout, contrast by the formula of WCAG 2.2
 * on computed colours, with transparent grounds resolved to those behind them.
 */
export function controls(page: Page): Promise<Measured[]> {
  return page.evaluate(call("controls()"));
}

/** Returns the filled areas of the page that are at least as large as a key. */
export function surfaces(page: Page): Promise<Surface[]> {
  return page.evaluate(call("surfaces()"));
}

/** Returns the words smaller than this many CSS pixels, except in drawings. */
export function smallWords(page: Page, px: number): Promise<string[]> {
  return page.evaluate(call(`small(${px})`));
}

/** Returns everything that flashes now: cycles per second, and rises of its opacity per cycle. */
export function flashing(page: Page): Promise<{ name: string; perSecond: number }[]> {
  return page.evaluate(call("flashing()"));
}

/** Returns the place and text of every element that matches the selector. */
export const boxes = (page: Page, selector: string) =>
  page.locator(selector).evaluateAll((all) =>
    all.map((e) => {
      const { x, y, width, height } = e.getBoundingClientRect();
      return { name: e.textContent ?? "", x, y, width, height };
    }),
  );

/** Returns the faults that axe finds, with the enhanced contrast of WCAG 2.2 and the label in a key's name (2.5.3). */
export async function axeFaults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .options({
      rules: {
        "color-contrast-enhanced": { enabled: true },
        "label-content-name-mismatch": { enabled: true },
      },
    })
    .analyze();
  return violations.flatMap((v) =>
    v.nodes.map((n) => `${v.id}: ${n.target.join(" ")} ${n.failureSummary ?? ""}`),
  );
}

const LIGHTS: readonly Light[] = ["sun", "indoor", "night"];

/** Returns the same for a page in each light, which stays in the last one. */
export async function axeInEachLight(page: Page): Promise<string[]> {
  const faults: string[] = [];
  for (const light of LIGHTS) {
    await page.evaluate((l) => {
      document.documentElement.dataset.mode = l;
    }, light);
    faults.push(...(await axeFaults(page)).map((fault) => `${light}, ${fault}`));
  }
  return faults;
}

/** Returns the parts of a panel that are out of sight: sideways overflow, the sentence of the ask, a stop. */
export function layoutFaults(page: Page): Promise<string[]> {
  return page.evaluate(call("layout()"));
}

/**
 * Returns every key that a finger cannot reach, wherever it is scrolled to: its centre is covered, its edge is cut off,
 * its words do not fit in it, or the first key of the ask is below the fold. With a sheet open, only the sheet's keys and the stops count.
 */
export function coveredKeys(page: Page): Promise<string[]> {
  return page.evaluate(call("covered()"));
}

/** Returns the requirements of a post's panel that the control does not meet. */
function lacks(c: Measured): string[] {
  const side = Math.min(c.width, c.height);
  // On a phone, a key in a row of four is narrower than it is high. No key is lower than the limit.
  const low = c.height < KEY || c.width < 44 || (c.stop && side < STOP);
  return [
    ...(low ? [`is ${Math.round(c.width)} by ${Math.round(c.height)} px`] : []),
    ...(c.text !== null && c.text < 7 ? [`its words have ${c.text.toFixed(2)} to 1`] : []),
    ...(c.shape !== null && c.shape < 3 ? [`its shape has ${c.shape.toFixed(2)} to 1`] : []),
    ...(c.edge !== null && !c.disabled && c.edge < 3 ? [`its edge has ${c.edge.toFixed(2)} to 1`] : []),
  ];
}

/** Returns every fault of size, contrast and, by night, brightness that a panel has in one light. */
export async function drawnFaults(page: Page, light: Light): Promise<string[]> {
  await page.evaluate((l) => {
    document.documentElement.dataset.mode = l;
  }, light);
  const faults = (await controls(page)).flatMap((c) => lacks(c).map((f) => `${light}, ${c.name}: ${f}`));
  if (light !== "night") return faults;
  const bright = (await surfaces(page))
    .filter((s) => !s.name.includes("qr-"))
    .filter((s) => s.luminance > 0.05 || s.blue > s.red + 0.001);
  return [
    ...faults,
    ...bright.map((s) => `night, ${s.name}: luminance ${s.luminance.toFixed(3)}, blue ${s.blue.toFixed(3)}`),
  ];
}
