import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import type { Light } from "../../web/words/light.ts";
import { coveredKeys } from "../browser/measure.ts";

export const LIGHTS: readonly Light[] = ["sun", "indoor", "night"];

export const SIZES = {
  phone: { width: 390, height: 844 },
  tablet: { width: 1180, height: 820 },
  desktop: { width: 1600, height: 1000 },
} as const;

export type Size = keyof typeof SIZES;

export interface Picture {
  scene: string;
  who: string;
  size: Size;
  light: Light;
  file: string;
}

/**
 * Changes the page to a light. It presses the light key where there is one, so that the key names the new light; on a
 * page without the key it sets the attribute itself.
 */
export async function inLight(light: Light): Promise<void> {
  const html = document.documentElement;
  const key = document.querySelector<HTMLElement>(".light-key");
  html.dataset.modeBefore = key ? "" : html.dataset.mode;
  for (let i = 0; i < 2 && html.dataset.mode !== light; i += 1) {
    key?.click();
    await new Promise(requestAnimationFrame);
  }
  html.dataset.mode = light;
}

function asBefore(): void {
  const html = document.documentElement;
  if (html.dataset.modeBefore) html.dataset.mode = html.dataset.modeBefore;
}

/** Undoes how an earlier look for covered keys scrolled what is wider than the page. */
function unscrolled(): void {
  for (const part of document.querySelectorAll("main *")) part.scrollLeft = 0;
}

function intoSight(part: Element): void {
  part.scrollIntoView({ block: "start" });
}

/** Takes one screen in every size and light, and keeps the pictures. */
export class Camera {
  readonly pictures: Picture[] = [];
  /** Every key that could not be reached in a picture. */
  readonly faults: string[] = [];
  readonly #folder: string;
  readonly #sizes: readonly Size[];
  readonly #lights: readonly Light[];
  readonly #direction: "ltr" | "rtl";

  /** @param direction of the writing; no language of the product is written from the right yet */
  constructor(
    folder: string,
    sizes: readonly Size[],
    lights: readonly Light[],
    direction: "ltr" | "rtl" = "ltr",
  ) {
    this.#folder = folder;
    this.#sizes = sizes;
    this.#lights = lights;
    this.#direction = direction;
    mkdirSync(folder, { recursive: true });
  }

  /**
   * @param whole the whole length of the page instead of the window
   * @param at selector of the part to scroll to first
   */
  async take(scene: string, who: string, page: Page, whole = false, at?: string): Promise<void> {
    const before = page.viewportSize();
    await page.evaluate((dir) => document.documentElement.setAttribute("dir", dir), this.#direction);
    for (const size of this.#sizes) {
      await page.setViewportSize(SIZES[size]);
      for (const light of this.#lights) {
        await page.evaluate(unscrolled);
        if (at) await page.locator(at).first().evaluate(intoSight);
        await page.evaluate(inLight, light);
        const file = `${scene} ${who} ${size} ${light}.png`.toLowerCase().replaceAll(/[^a-z0-9.]+/g, "-");
        const bytes = await page.screenshot({ fullPage: whole, animations: "disabled" });
        const faults = await coveredKeys(page);
        this.faults.push(...faults.map((f) => `${scene}, ${who}, ${size}, ${light}: ${f}`));
        await page.evaluate(asBefore);
        writeFileSync(join(this.#folder, file), bytes);
        this.pictures.push({ scene, who, size, light, file });
      }
    }
    if (before) await page.setViewportSize(before);
  }
}
