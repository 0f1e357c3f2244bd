import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { axeFaults, drawnFaults, flashing, smallWords } from "./measure.ts";
import { POSTS_KEY } from "./seat.ts";
import { seats, secured } from "./secured.ts";

const LIGHTS = ["sun", "indoor", "night"] as const;

const at = secured();

/** Returns the faults of a page in every light. */
async function measured(page: Page, what: string): Promise<string[]> {
  const found: string[] = [];
  for (const light of LIGHTS) found.push(...(await drawnFaults(page, light)).map((f) => `${what}: ${f}`));
  return found;
}

it("[VIS-1] [VIS-2] [VIS-3] every control is large enough and stands out from its ground in every light", async () => {
  const found: string[] = [];
  for (const [post, { page }] of seats(at.crew)) found.push(...(await measured(page, post)));
  const { cockpit, power, supervisor } = at.crew;
  for (const [seat, opened] of [
    [cockpit, "Cut"],
    [power, /^Engine 3:/],
    [supervisor, POSTS_KEY],
  ] as const) {
    await seat.press(opened);
    found.push(...(await measured(seat.page, `${opened} opened`)));
    await seat.press("Close");
  }
  expect(found).toEqual([]);
});

it("[VIS-5] at 0.7 m no words are smaller than 16 minutes of arc", async () => {
  // A capital of B612 is 0.75 of its font size: 2 * 0.7 m * tan(8 minutes) = 3.26 mm needs a font size of 16.4 px.
  for (const [post, { page }] of seats(at.crew)) {
    const before = page.viewportSize() ?? { width: 1180, height: 820 };
    await page.setViewportSize({ width: 1180, height: 820 });
    expect(await smallWords(page, 16.4), post).toEqual([]);
    await page.setViewportSize(before);
  }
});

it("[VIS-1] one touch changes the light to the next darker one, and the device keeps it", async () => {
  const { page } = at.crew.guard;
  const light = () => page.evaluate(() => document.documentElement.dataset.mode);
  await page.evaluate(() => localStorage.removeItem("chockside.light"));
  await page.reload();
  for (const [shown, next] of [
    ["sun", "indoor"],
    ["indoor", "night"],
  ] as const) {
    expect(await light()).toBe(shown);
    await at.crew.guard.press(`Colours for: ${shown}. Change to ${next}`);
  }
  await page.reload();
  await page.locator(".panel").waitFor();
  expect(await light()).toBe("night");
  const other = await at.crew.guard.context.newPage();
  await other.goto(at.server.url);
  expect(await other.evaluate(() => document.documentElement.dataset.mode)).toBe("night");
  await other.close();
});

it("[VIS-4] the panels flash 1.5 to 2 times a second while a stop is unacknowledged, and not with reduced motion", async () => {
  const { cockpit, guard, power, supervisor } = at.crew;
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
  }
  for (const seat of [cockpit, guard, supervisor])
    await seat.answer("Hold. Stop all new action.", "Received");
  await guard.page.locator(".strobe").waitFor({ state: "detached" });
  expect(await flashing(guard.page)).toEqual([]);
  await power.answer("Your hold is on. Release it when it is safe.", "Release my hold");
});

it("[PAN-7, PAN-28] axe finds no fault on the panels in any light", async () => {
  const lights = { cockpit: "sun", "fire guard": "night", "ground power": "indoor", supervisor: "night" };
  for (const [post, { page }] of seats(at.crew)) {
    const light = lights[post as keyof typeof lights];
    await page.evaluate((l) => {
      document.documentElement.dataset.mode = l;
    }, light);
    expect(await axeFaults(page), `${post}, ${light}`).toEqual([]);
  }
});

it("[PAN-7] axe finds no fault on sign-in, ramp, plan and record", async () => {
  const stranger = await (await at.browser.newContext()).newPage();
  await stranger.goto(at.server.url);
  await stranger.getByRole("heading", { name: "Demonstration" }).waitFor();
  expect(await axeFaults(stranger)).toEqual([]);
  const { page } = at.crew.supervisor;
  await page.goto(`${page.url()}/record`);
  await page.getByText("events, times by the server in UTC").waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.goto(at.server.url);
  await page.locator(".strip").first().waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await at.crew.supervisor.press("Plan a start");
  await at.crew.supervisor.press(/^Windhover/);
  await at.crew.supervisor.sees(/^Order of starting/);
  expect(await axeFaults(page)).toEqual([]);
});

// The last test: the first touch sends a fire, and it goes on standing.
it("[VIS-1] [VIS-2] [VIS-3] every control of a fire's sheet is large enough and stands out", async () => {
  await at.crew.guard.press("Fire");
  expect(await measured(at.crew.guard.page, "Fire opened")).toEqual([]);
});
