import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Crew, signInCrew } from "./crew.ts";
import { axeFaults, drawnFaults, flashing, smallWords } from "./measure.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const LIGHTS = ["sun", "indoor", "night"] as const;

const server = new TestServer();
let browser: Browser;
let crew: Crew;
let session: Prompter;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
  session = await Prompter.begin(crew, server.url, "QX-KIV");
  await session.playUntil((s) => s.stage === "secure");
}, 120_000);
afterAll(async () => {
  session.close();
  await browser?.close();
  await server.end();
});

const seats = (): [string, Seat][] => [
  ["cockpit", crew.cockpit],
  ["fire guard", crew.guard],
  ["ground power", crew.power],
  ["supervisor", crew.supervisor],
];

it("[VIS-1] [VIS-2] [VIS-3] every control is large enough and told from its ground, in every light", async () => {
  const found: string[] = [];
  const measured = async (page: Page, what: string) => {
    for (const light of LIGHTS) found.push(...(await drawnFaults(page, light)).map((f) => `${what}: ${f}`));
  };
  for (const [post, { page }] of seats()) await measured(page, post);
  const { cockpit, guard, power, supervisor } = crew;
  for (const [seat, opened] of [
    [cockpit, "Cut"],
    [guard, "Fire"],
    [power, /^Engine 3:/],
    [supervisor, "Posts and session"],
  ] as const) {
    await seat.press(opened);
    await measured(seat.page, `${opened} opened`);
    await seat.press("Close");
  }
  expect(found).toEqual([]);
}, 60_000);

it("[VIS-5] seen from 0.7 m no words are smaller than 16 minutes of arc", async () => {
  // A capital of B612 is 0.75 of its size: 2 * 0.7 m * tan(8 minutes) = 3.26 mm is a size of 16.4 px.
  for (const [post, { page }] of seats()) {
    const before = page.viewportSize() ?? { width: 1180, height: 820 };
    await page.setViewportSize({ width: 1180, height: 820 });
    expect(await smallWords(page, 16.4), post).toEqual([]);
    await page.setViewportSize(before);
  }
});

it("[VIS-1] the light is one touch away, towards the dark, and stays with the device", async () => {
  const { page } = crew.guard;
  const light = () => page.evaluate(() => document.documentElement.dataset.mode);
  await page.evaluate(() => localStorage.removeItem("chockside.light"));
  await page.reload();
  for (const [shown, next] of [
    ["sun", "indoor"],
    ["indoor", "night"],
  ] as const) {
    expect(await light()).toBe(shown);
    await crew.guard.press(`Colours for: ${shown}. Change to ${next}`);
  }
  await page.reload();
  await page.locator(".panel").waitFor();
  expect(await light()).toBe("night");
  const other = await crew.guard.context.newPage();
  await other.goto(server.url);
  expect(await other.evaluate(() => document.documentElement.dataset.mode)).toBe("night");
  await other.close();
});

it("[VIS-4] the panels flash 1.5 to 2 times a second while a stop is unacknowledged, and not for who wants no motion", async () => {
  const { cockpit, guard, power, supervisor } = crew;
  await power.press("Hold");
  await cockpit.asked("Hold. Stop all new action.");
  await guard.page.locator(".strobe").waitFor();
  for (const seat of [cockpit, guard]) {
    await seat.page.emulateMedia({ reducedMotion: "no-preference" });
    const seen = await flashing(seat.page);
    expect(seen.length).toBeGreaterThan(0);
    for (const f of seen) {
      expect(f.perSecond, f.name).toBeGreaterThanOrEqual(1.5);
      expect(f.perSecond, f.name).toBeLessThanOrEqual(2);
    }
    await seat.page.emulateMedia({ reducedMotion: "reduce" });
    expect(await flashing(seat.page)).toEqual([]);
    await seat.page.emulateMedia({ reducedMotion: null });
  }
  for (const seat of [cockpit, guard, supervisor])
    await seat.answer("Hold. Stop all new action.", "Received");
  await guard.page.locator(".strobe").waitFor({ state: "detached" });
  expect(await flashing(guard.page)).toEqual([]);
  await power.answer("Your hold stands. Release it when it is safe.", "Release my hold");
});

it("[PAN-7] the panels can be read, in every light: no fault that axe finds", async () => {
  const lights = { cockpit: "sun", "fire guard": "night", "ground power": "indoor", supervisor: "night" };
  for (const [post, { page }] of seats()) {
    const light = lights[post as keyof typeof lights];
    await page.evaluate((l) => {
      document.documentElement.dataset.mode = l;
    }, light);
    expect(await axeFaults(page), `${post}, ${light}`).toEqual([]);
  }
}, 90_000);

it("[PAN-7] sign-in, ramp, plan and record can be read too", async () => {
  const stranger = await (await browser.newContext()).newPage();
  await stranger.goto(server.url);
  await stranger.getByRole("heading", { name: "Demonstration" }).waitFor();
  expect(await axeFaults(stranger)).toEqual([]);
  const { page } = crew.supervisor;
  await page.goto(`${page.url()}/record`);
  await page.getByText("events, times by the server in UTC").waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.goto(server.url);
  await page.locator(".strip").first().waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await crew.supervisor.press("Plan a start");
  await crew.supervisor.press(/^Windhover/);
  await crew.supervisor.sees(/^Order of starting/);
  expect(await axeFaults(page)).toEqual([]);
}, 60_000);
