import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Crew, signInCrew } from "./crew.ts";
import { coveredKeys } from "./measure.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";
import { speak } from "./speak.ts";

const SIZES = [
  { width: 390, height: 844 },
  { width: 1180, height: 820 },
  { width: 1440, height: 900 },
];

const server = new TestServer();
let browser: Browser;
let crew: Crew;
let story: Prompter;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
  story = await Prompter.begin(crew, server, "QX-PEN");
});
afterAll(async () => {
  story?.close();
  await browser?.close();
  await server.end();
});

/** Returns the covered keys of a panel in every size. */
async function covered({ page }: Seat): Promise<string[]> {
  const found: string[] = [];
  for (const size of SIZES) {
    await page.setViewportSize(size);
    for (const fault of await coveredKeys(page)) found.push(`${size.width}: ${fault}`);
  }
  return found;
}

it("[PAN-57] while engines are started, the cockpit's table stands directly below the ask, above a tablet's fold", async () => {
  await story.playUntil((s) => s.stage === "starting");
  const { page } = crew.cockpit;
  await page.setViewportSize({ width: 1180, height: 820 });
  await page.locator(".engine-table tbody tr").first().waitFor();
  const places = await page.evaluate(() => {
    const top = (selector: string) => document.querySelector(selector)?.getBoundingClientRect().top ?? -1;
    const ask = document.querySelector(".panel-ask > .ask");
    const parts = [...document.querySelectorAll(".panel-ask > *")];
    const below = parts.slice(parts.indexOf(ask as Element) + 1).map((e) => e.className);
    return { below, table: top(".engine-table thead"), stops: top(".panel-foot") };
  });
  const table = places.below.findIndex((c) => c.includes("engine-table"));
  expect(table).toBeGreaterThanOrEqual(0);
  // Only the line of the card may stand between.
  for (const between of places.below.slice(0, table)) expect(between).toMatch(/card/);
  expect(places.table).toBeLessThan(places.stops);
});

it("[PAN-56] no key's centre is covered and no key's words are cut off on any panel, in either language, with a start under way and with a hold", async () => {
  const found: Record<string, string[]> = {};
  const look = async (scene: string) => {
    for (const [i, seat] of crew.all.entries()) {
      const faults = await covered(seat);
      if (faults.length > 0) found[`${scene} ${i}`] = faults;
    }
  };
  await look("starting");
  for (const { page } of crew.all) await speak(page, "es");
  await look("starting, Spanish");
  await story.give("supervisor", { type: "send", kind: "hold", channel: "panel" });
  for (const { page } of crew.all) await page.locator(".standing li, .standing > *").first().waitFor();
  await look("hold, Spanish");
  expect(found).toEqual({});
});

it("[PAN-68] [PAN-56] the first answer about a fire stands above the stops on a telephone, for its sender too", async () => {
  const hold = story.state.holds[0]?.id;
  await story.give("supervisor", { type: "send", kind: "release", channel: "panel", ref: hold });
  const fire = { kind: "fire", engine: 2, place: "induction" } as const;
  await story.give("fireGuard", { type: "send", channel: "panel", ...fire });
  for (const language of ["es", "en"] as const)
    for (const { page } of crew.all) {
      await speak(page, language);
      await page.locator('.standing-row[data-kind="fire"]').waitFor();
      await page.locator('.ask[data-weight="danger"] .answer').first().waitFor();
      await page.setViewportSize({ width: 390, height: 844 });
      expect(await coveredKeys(page), language).toEqual([]);
    }
});

it("[PAN-69] a head or foot that stays in place covers no key of a page that is scrolled to", async () => {
  const { page } = crew.supervisor;
  const pages: [string, string][] = [
    ["/plan", ".plan-foot"],
    ["/study", ".plate-next"],
  ];
  for (const [path, until] of pages) {
    await crew.supervisor.turnTo(path);
    await page.locator(until).waitFor();
    if (path === "/plan") await crew.supervisor.press(/^Little Penhale/);
    expect(await covered(crew.supervisor), path).toEqual([]);
  }
});
