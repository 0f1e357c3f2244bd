import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser } from "playwright-core";
import { openUsualBrowser, Seat } from "../browser/seat.ts";
import { SIZES } from "../gallery/camera.ts";
import { planOn, signInOn } from "../live/kill-run.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import { PostgresServer } from "../servers/postgres-server.ts";

const FOLDER = fileURLToPath(new URL("../../.gallery/", import.meta.url));
/** From the loss of the database to the words on every page: the promise, with what a busy machine adds. */
const SAID_MS = 10_000;

const ready = async (url: string) =>
  /^chockside_ready (\S+)$/m.exec(await (await fetch(`${url}/metrics`)).text())?.[1];

/**
 * Stops the PostgreSQL of a running server, looks at the metric and photographs the panel, the ramp page and the wall
 * board. Returns true when each said so, and said no more once it was back.
 */
export async function awaySoak(): Promise<boolean> {
  // The panels are built before: npm run build.
  prepareServer();
  mkdirSync(FOLDER, { recursive: true });
  const postgres = await PostgresServer.start();
  const server = await ServerProcess.start("", {
    ...{ DATABASE_URL: await postgres.database("away"), CHOCKSIDE_DATA: join(FOLDER, "away", "unused.db") },
  });
  const browser = await openUsualBrowser();
  const faults: string[] = [];
  const expect = (is: boolean, words: string) => {
    if (!is) faults.push(words);
  };
  try {
    const session = await planOn(server.url, await signInOn(server.url, "merryn", "925364"));
    expect((await ready(server.url)) === "1", "chockside_ready is not 1 before");
    const panel = await seatOf(browser, server.url, /^Merryn/);
    await panel.turnTo(`/session/${session}`);
    await panel.page.locator(".panel").waitFor();
    const ramp = await seatOf(browser, server.url, /^Keren/);
    await postgres.away();
    for (const [name, { page }] of [
      ["panel", panel],
      ["ramp", ramp],
    ] as const) {
      const words = page
        .getByText(/be recorded|cannot record/i)
        .filter({ visible: true })
        .first();
      await words.waitFor({ timeout: SAID_MS }).catch(() => faults.push(`${name}: nothing is said`));
      for (const [size, viewport] of Object.entries(SIZES)) {
        await page.setViewportSize(viewport);
        await page.screenshot({
          path: join(FOLDER, `database-away-${name}-${size}.png`),
          animations: "disabled",
        });
      }
      console.log(`${name}: ${await words.textContent().catch(() => "–")}`);
    }
    const away = await ready(server.url);
    console.log(`chockside_ready ${away} with PostgreSQL stopped`);
    expect(away === "0", "chockside_ready is not 0");
    await postgres.back();
    for (const until = Date.now() + 30_000; (await ready(server.url)) !== "1" && Date.now() < until; );
    expect((await ready(server.url)) === "1", "chockside_ready is not 1 again");
  } finally {
    await browser.close();
    await server.kill();
    await postgres.stop();
  }
  for (const fault of faults) console.log(`FAULT ${fault}`);
  console.log(`${faults.length} faults; pictures in ${FOLDER}`);
  return faults.length === 0;
}

/** Signs a person of the demo in, whose list is folded while a crew can be begun. */
async function seatOf(browser: Browser, url: string, name: RegExp): Promise<Seat> {
  const seat = await Seat.at(await browser.newContext({ viewport: SIZES.tablet }), url);
  await seat.page.locator("summary.small-key").click();
  await seat.press(name);
  await seat.page.getByRole("heading", { name: "The ramp" }).waitFor();
  return seat;
}
