import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";
import { nextTwin, TWINS } from "./twins.ts";
import { commandIds, Wire } from "./wire.ts";

const server = new TestServer({ aircraft: TWINS });
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

const PLAN_ASK = "The plan is made. Go on to the brief?";

/** Seats a supervisor at a session just planned. */
async function supervising(handle: string): Promise<Seat> {
  const seat = await Seat.open(browser, server.url, handle);
  await seat.press("Plan a start");
  await seat.press(new RegExp(`^${nextTwin().name}\\b`));
  await seat.page.getByRole("textbox", { name: "Place" }).fill("East hangar");
  await seat.sees(/^Order of starting: \d/);
  await seat.press("Plan this start");
  await seat.openPosts();
  await seat.press("Take supervisor");
  await seat.press("Close");
  await seat.asked(PLAN_ASK);
  return seat;
}

it("[PAN-8] [PAN-10] a reload and a restart of the server lose nothing, and a hold given meanwhile is recorded once", async () => {
  const seat = await supervising("merryn");
  await seat.page.reload();
  await seat.asked(PLAN_ASK);

  await server.stop();
  await seat.sees(/^Offline, last heard .* Hold\. What you see may be old/);
  expect(await seat.page.locator(".ask").getByRole("button", { name: "Go on" }).isDisabled()).toBe(true);
  await seat.press("Hold");
  await seat.sees("Sending… not yet heard by anyone. Use the hand signal.");
  await seat.page.reload().catch(() => undefined);

  await server.start();
  await seat.page.reload();
  await seat.sees(/^Hold\. Merryn Tolvadden, supervisor/);
  await seat.sees(/^The server started again/);
  const holds = seat.page.locator(".standing-row");
  expect(await holds.count()).toBe(1);
  await seat.answer("Your hold is on. Release it when it is safe.", "Release my hold");
  await seat.answer(PLAN_ASK, "Go on");
});

it("[PAN-11] the panel asks about a message that was not answered in time, and sends it only when the person says so", async () => {
  const seat = await supervising("demelza");
  const wire = await Wire.of(seat.page);
  await seat.page.reload();
  await seat.asked(PLAN_ASK);

  wire.deaf = true;
  await seat.press("Go on", seat.page.locator(".ask"));
  await seat.sees("Sending… not yet recorded");
  await seat.page.getByText("Perhaps it was heard. Is it still true?").waitFor();
  wire.deaf = false;
  const before = wire.heard.length;
  await seat.asked(PLAN_ASK);
  await seat.press("Still true: send it again");
  await seat.sees("Were you briefed: order, signals, fire plan, way out?");
  expect(commandIds(wire.heard.slice(before))).toHaveLength(1);
});

it("[PAN-70] a plan whose aircraft could not be fetched asks for them again by one touch", async () => {
  const seat = await Seat.open(browser, server.url, "merryn");
  const { name } = nextTwin();
  const list = "**/api/aircraft";
  await seat.page.route(list, (route) => route.abort());
  await seat.press("Plan a start");
  await seat.press("Ask again");
  await seat.page.getByRole("alert").waitFor();
  await seat.page.unroute(list);
  await seat.press("Ask again");
  await seat.press(new RegExp(`^${name}\\b`));
  await seat.page.getByRole("textbox", { name: "Place" }).waitFor();
  expect(await seat.page.getByRole("alert").count()).toBe(0);
});
