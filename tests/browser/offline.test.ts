import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;
const open: Seat[] = [];

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((seat) => seat.context.close()));
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

const PLAN_ASK = "The plan is made. Go on to the brief?";

async function seatOf(handle: string, viewport?: { width: number; height: number }): Promise<Seat> {
  const seat = await Seat.open(browser, server.url, handle, viewport);
  open.push(seat);
  return seat;
}

/** A supervisor at the post of a session just planned, and the code to join it. */
async function supervising(handle: string): Promise<{ seat: Seat; code: string }> {
  const seat = await seatOf(handle);
  await seat.press("Plan a start");
  await seat.press(/^Little Penhale/);
  await seat.page.getByLabel("Place").fill("East hangar");
  await seat.sees(/^Order of starting: \d/);
  await seat.press("Plan this start");
  await seat.press("Posts and session");
  const code = (await seat.page.locator(".code").textContent()) ?? "";
  await seat.press("Take supervisor");
  await seat.press("Close");
  await seat.asked(PLAN_ASK);
  return { seat, code };
}

async function join(seat: Seat, code: string, key: string): Promise<void> {
  await seat.page.getByLabel("Joining code").fill(code);
  await seat.press("Join");
  await seat.press("Take a post");
  await seat.press(key);
  await seat.press("Close");
}

/** The panels are kept on the device, and this window is served from there. */
async function kept(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller)
      await new Promise((done) => {
        navigator.serviceWorker.addEventListener("controllerchange", done, { once: true });
      });
  });
}

it("[PWA-1] [PWA-2] once kept, the panels open without a network, and what the server alone knows is never made up", async () => {
  const { seat } = await supervising("merryn");
  await kept(seat.page);
  await seat.context.setOffline(true);
  await seat.page.reload();
  await seat.sees("Fetching the session…");
  const asked = await seat.page.evaluate(() => fetch("/api/sessions").then(() => "answered", () => "no answer"));
  expect(asked).toBe("no answer");
  await seat.context.setOffline(false);
  await seat.asked(PLAN_ASK);
}, 60_000);
