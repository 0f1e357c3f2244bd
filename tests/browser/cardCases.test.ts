import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { plain } from "../../shared/engine/life.ts";
import { type Crew, passTime, signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;
let crew: Crew;
let start: Prompter | undefined;

const PACE = 600;
const FIRST = 3;
const USUAL = "Throttle cracked, mixture idle cut-off, primed";
const HOT = "Hot engine: throttle cracked, mixture idle cut-off, no prime";
const CLEAR = "It did not start: no more prime, mixture idle cut-off, throttle fully open";
const IF_IT_FIRES = "If it fires as it clears: mixture full rich, throttle back at once";

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
});
afterAll(async () => {
  start?.close();
  await browser?.close();
  await server.end();
});

const life = (p: Prompter) => plain(p.state.engines[FIRST - 1]?.life ?? { is: "waiting" }).is;
const cardAsked = (p: Prompter, item: string) =>
  p.asked("cockpit").some((a) => a.key === `card:${item}:${FIRST}`);

/** Lets the starter rest, for less time than an engine stays hot. */
const rested = () => passTime(server, crew, 10 * 60_000);

/** The cockpit is shown these items of the first engine's card, one after another, and never the usual one. */
async function shown(items: readonly string[]): Promise<void> {
  const { cockpit } = crew;
  for (const words of items) {
    await cockpit.asked(`Number ${FIRST}: ${words}`);
    expect(await cockpit.page.locator(".panel-ask").getByText(USUAL).count()).toBe(0);
    await cockpit.answer(`Number ${FIRST}: ${words}`, "Done");
  }
}

it("[CRD-50] a flooded engine at the panels: after a failed attempt its short card is asked, and it starts by it", async () => {
  start = await Prompter.begin(crew, server, "QX-KIV", PACE);
  const p = start;
  await p.playUntil(() => life(p) === "cranking");
  await p.give("cockpit", { type: "send", kind: "startAbandoned", engine: FIRST, channel: "panel" });
  await p.playUntil(() => cardAsked(p, "setToClear"));
  await shown([CLEAR, IF_IT_FIRES]);
  expect(p.state.card?.[`setToClear:${FIRST}`]?.good).toBe(true);
  await rested();
  await p.playUntil(() => life(p) === "stable");
  expect(p.state.engines[FIRST - 1]?.attempts).toBe(2);
});

it("[CRD-50] a hot restart at the panels: an engine that has just run is asked its own short card, without prime", async () => {
  const p = start as Prompter;
  await p.give("cockpit", { type: "send", kind: "shutDown", engine: FIRST, channel: "panel", note: "smoke" });
  await p.playUntil(() => cardAsked(p, "setForHotStart"));
  await shown([HOT]);
  expect(p.state.card?.[`setForHotStart:${FIRST}`]?.good).toBe(true);
  await rested();
  await p.playUntil(() => life(p) === "stable");
  expect(p.state.engines[FIRST - 1]?.attempts).toBe(3);
  expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
});
