import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { LANGUAGES, type Language } from "../../shared/words/language.ts";
import { Seat } from "../browser/seat.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import type { Camera } from "./camera.ts";
import { choose } from "./language.ts";

/** The crew plays some 50 starts for the year. Milliseconds. */
const YEAR_MS = 600_000;

/** Photographs the history of the demo's invented year, on a server of its own: its rows must be all that there is. */
export async function photographHistory(browser: Browser, camera: Camera): Promise<void> {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-gallery-"));
  const data = join(folder, "chockside.db");
  const server = await ServerProcess.start(data, { CHOCKSIDE_DEMO: "auto", CHOCKSIDE_TLS: "off" });
  try {
    const seat = await Seat.open(browser, server.url, "wenna");
    await makeYear(seat, camera);
    await defectsLife(seat, camera);
    for (const language of LANGUAGES) await pages(seat, camera, language);
    await seat.context.close();
  } finally {
    await server.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Goes from the first page to the drift, as somebody does who has never seen the demo. */
async function makeYear(seat: Seat, camera: Camera): Promise<void> {
  const { page } = seat;
  const take = (scene: string) => camera.take(`Minute of a newcomer: ${scene}`, "Anybody", page, true);
  await page.getByRole("button", { name: "How starts went" }).waitFor();
  await take("1, the ramp");
  await seat.press("Make the year");
  const made = page.getByRole("button", { name: "History of QX-PEN" });
  await made.waitFor({ timeout: YEAR_MS });
  await take("2, the year is made");
  await made.click();
  await seat.sees(/^Number 2 takes longer/);
  await take("3, the drift");
}

/** Writes up two defects: one is deferred, the other mended. */
async function defectsLife(seat: Seat, camera: Camera): Promise<void> {
  const { page } = seat;
  await seat.turnTo("/aircraft/QX-PEN");
  const written = (words: string) => page.getByRole("listitem", { name: words });
  const fill = (name: string, text: string) => page.locator(`form input[name=${name}]`).fill(text);
  for (const words of ["Oil leak", "Gauge cannot be read"]) {
    for (const key of ["Write up a defect", "Number 2", words, "Blocks the start"]) await seat.press(key);
    await written(words).waitFor();
  }
  await seat.press("Defer it", written("Oil leak"));
  await fill("starts", "3");
  await fill("reason", "Two drops in an hour. Look at it after each start");
  await camera.take("A defect to defer", "Supervisor", page, false, "section:has(form.register-form)");
  await seat.press("Defer it", page.locator("form.register-form"));
  await written("Oil leak")
    .getByText(/^Deferred for/)
    .first()
    .waitFor();
  await seat.press("Close it", written("Gauge cannot be read"));
  await fill("reason", "Connector cleaned, reads again");
  await seat.press("Close it", page.locator("form.register-form"));
  await page.locator(".defects-closed").waitFor();
}

async function pages(seat: Seat, camera: Camera, language: Language): Promise<void> {
  const { page } = seat;
  await choose(page, language);
  const at = async (path: string, scene: string, until: string, part?: string) => {
    await page.goto(`${new URL(page.url()).origin}${path}`);
    await page.locator(until).first().waitFor({ state: "attached" });
    if (part !== undefined) await page.locator(`${part} > summary`).first().click();
    await camera.take(`${scene}, ${language}`, "Anybody", page, true);
  };
  await at("/aircraft/QX-PEN", "A defect's life", ".defects-closed", ".defects-closed");
  await at("/aircraft/QX-PEN/history", "An aircraft's history", ".history-notes .small-key");
  await at("/engines/QX-PEN-E2", "An engine that drifts", ".history-charts .trend");
  await camera.take(`An engine that drifts, ${language}, first look`, "Anybody", page);
  await page.locator(".history-charts details > summary").first().click();
  await camera.take(
    `An engine's figure as a table, ${language}`,
    "Anybody",
    page,
    false,
    ".history-charts details",
  );
  await at("/house/starts", "How a year's starts went", ".bar-line");
  await at("/dues", "Dues after a year", "main h2");
  await at("/house/search?q=oil", "A search in a year", ".found-row");
  await at("/house/search?q=zzz", "A search that finds nothing", ".empty");
}
