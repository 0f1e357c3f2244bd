import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import type { Light } from "../../web/words/light.ts";
import { planAndBrief, powerUp, secure, signInCrew } from "../browser/crew.ts";
import { arcClear, clearAndReadBack, guardTo, ready } from "../browser/startSteps.ts";
import { inLight, SIZES } from "./camera.ts";

/** Most bytes of one picture, so that README.md loads fast. */
const MOST_BYTES = 80_000;

/**
 * Takes the three pictures of README.md during one start, up to the cranking of engine 3.
 * @param folder existing pictures of the same names are replaced
 * @throws Error when a picture is larger than 80 kB
 */
export async function photographReadme(browser: Browser, url: string, folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const crew = await signInCrew(browser, url);
  const { cockpit, guard, supervisor } = crew;
  await planAndBrief(crew);
  await secure(crew);
  await powerUp(crew);
  await ready(3, crew);
  await guardTo(3, crew);
  await guard.asked("Is the arc of number 3 clear?");
  await guard.page.setViewportSize(SIZES.phone);
  await take(guard.page, guard.page, "night", join(folder, "guard.webp"));
  await arcClear(3, crew);
  await clearAndReadBack(3, crew);
  await cockpit.press("Starter engaged");
  await cockpit.asked("Number 3 is cranking. Did it catch?");
  await cockpit.page.setViewportSize(SIZES.tablet);
  await take(cockpit.page, cockpit.page, "indoor", join(folder, "cockpit.webp"));
  await supervisor.page.setViewportSize(SIZES.desktop);
  const chart = supervisor.page.locator(".exchange-chart");
  await take(supervisor.page, chart, "indoor", join(folder, "exchange.webp"));
}

async function take(page: Page, part: Page | Locator, light: Light, file: string): Promise<void> {
  await page.evaluate(inLight, light);
  const png = await part.screenshot({ animations: "disabled" });
  // An empty page has no content policy that forbids the data address.
  const blank = await page.context().newPage();
  const bytes = Buffer.from(await blank.evaluate(webp, png.toString("base64")), "base64");
  await blank.close();
  if (bytes.length > MOST_BYTES)
    throw new Error(`${file} has ${bytes.length} bytes, more than ${MOST_BYTES}`);
  writeFileSync(file, bytes);
}

/** Returns the picture as WebP in base64. Runs in the browser, which brings the encoder. */
async function webp(png: string): Promise<string> {
  const image = new Image();
  image.src = `data:image/png;base64,${png}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = image.width;
  canvas.height = image.height;
  canvas.getContext("2d")?.drawImage(image, 0, 0);
  return canvas.toDataURL("image/webp", 0.85).replace(/^data:image.webp;base64,/, "");
}
