import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { SessionState } from "../../shared/session/state.ts";
import { coveredKeys, layoutFaults } from "./measure.ts";
import { POSTS_KEY, type Seat } from "./seat.ts";
import { seats, secured } from "./secured.ts";
import { speak } from "./speak.ts";

const SIZES = {
  phone: { width: 390, height: 844 },
  tablet: { width: 1180, height: 820 },
  desktop: { width: 1440, height: 900 },
} as const;

const at = secured();

/** Returns every key out of reach, and every ask below the fold, in every size. */
async function outOfReach(seat: Seat, what: string, asks = true): Promise<string[]> {
  const { page } = seat;
  const before = page.viewportSize();
  const found: string[] = [];
  for (const [size, viewport] of Object.entries(SIZES)) {
    await page.setViewportSize(viewport);
    const faults = [...(asks ? await layoutFaults(page) : []), ...(await coveredKeys(page))];
    found.push(...faults.map((f) => `${what}, ${size}: ${f}`));
  }
  if (before) await page.setViewportSize(before);
  return found;
}

async function everyPost(what: string): Promise<string[]> {
  const found = await Promise.all(seats(at.crew).map(([post, seat]) => outOfReach(seat, `${what}, ${post}`)));
  return found.flat();
}

async function inSpanish(what: string): Promise<string[]> {
  await Promise.all(at.crew.all.map(({ page }) => speak(page, "es")));
  const found = await everyPost(`${what}, in Spanish`);
  await Promise.all(at.crew.all.map(({ page }) => speak(page, "en")));
  return found;
}

it("[PAN-34] a key that is covered, cut off or too small for its words is found", async () => {
  const page: Page = await at.browser.newPage({ viewport: SIZES.phone });
  const shows = (more: string) =>
    page.setContent(`<button style="height:90px;width:200px">Chocks in</button>${more}`);
  await shows("");
  expect(await coveredKeys(page)).toEqual([]);
  await shows('<div style="position:fixed;inset:0"></div>');
  expect(await coveredKeys(page)).toEqual(["Chocks in: covered"]);
  await shows('<div style="position:fixed;inset:0 auto auto 0;width:40px;height:40px"></div>');
  expect(await coveredKeys(page)).toEqual(["Chocks in: cut off at its edge"]);
  await shows(
    '<button style="height:90px;width:60px;overflow:hidden;white-space:nowrap">No resistance</button>',
  );
  expect(await coveredKeys(page)).toEqual(["No resistance: its words do not fit: No resistance"]);
  await shows('<div class="sheet" style="position:fixed;inset:0">Asked</div>');
  expect(await coveredKeys(page)).toEqual([]);
  await page.close();
});

it("[PAN-34] [PAN-33] every key can be reached while the aircraft is secured", async () => {
  expect([...(await everyPost("secure")), ...(await inSpanish("secure"))]).toEqual([]);
  const { cockpit, supervisor } = at.crew;
  const found: string[] = [];
  for (const [seat, opened, end] of [
    [cockpit, "Brakes set", "Back"],
    [cockpit, "Cut", "Close"],
    [supervisor, POSTS_KEY, "Close"],
  ] as const) {
    await seat.press(opened);
    found.push(...(await outOfReach(seat, String(opened), false)));
    await seat.press(end);
  }
  expect(found).toEqual([]);
});

const MOMENTS: readonly [what: string, reached: (state: SessionState) => boolean][] = [
  ["power is on", (s) => s.stage === "starting"],
  ["an engine cranks", (s) => s.engines.some((e) => e.life.is === "cranking")],
  ["an engine caught", (s) => s.engines.some((e) => e.life.is === "caught")],
  ["warm-up", (s) => s.stage === "warmUp"],
];

it("[PAN-34] [PAN-33] every key can be reached during the start, under a hold and with a fire", async () => {
  const found: string[] = [];
  for (const [what, reached] of MOMENTS) {
    await at.session.playUntil(reached);
    found.push(...(await everyPost(what)));
  }
  await at.crew.power.press("Hold");
  await at.crew.cockpit.asked("Hold. Stop all new action.");
  found.push(...(await everyPost("hold")), ...(await inSpanish("hold")));
  await at.crew.guard.press("Fire");
  found.push(...(await outOfReach(at.crew.guard, "fire", false)));
  await at.crew.cockpit.sees(/^Fire/);
  await at.crew.guard.press("Close");
  found.push(...(await everyPost("fire")), ...(await inSpanish("fire")));
  expect(found).toEqual([]);
});
