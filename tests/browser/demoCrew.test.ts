import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { axeInEachLight } from "./measure.ts";
import { KEEPS_NOTHING, openBrowser, PATIENCE, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer({ crews: true });
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

async function begin(key: string) {
  const page = await (
    await browser.newContext({ viewport: { width: 1180, height: 820 }, ...KEEPS_NOTHING })
  ).newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(server.url);
  await page.getByRole("button", { name: key, exact: true }).click();
  await page.waitForURL(/\/session\/rehearsal-/);
  return page;
}

it("[PAN-55] [RHS-9] one touch on the sign-in page shows partners who rehearse a start, under a striped edge", async () => {
  const page = await begin("Watch a crew start one");
  const stage = page.locator(".title-stage strong");
  // Partners take their posts and go on by themselves, at the pace of people.
  await page.locator(".title-posts").getByText("Auto 4").waitFor();
  await expect.poll(() => stage.textContent()).not.toBe("Plan");
  await page.locator(".rehearsal-edge").getByText("REHEARSAL").waitFor();
  expect(await page.title()).toContain("REHEARSAL");
  expect(await page.locator(".title-block").textContent()).toContain("REHEARSAL");
  await page.getByText("Instructor's desk").waitFor();
  await page.context().close();
});

it("[PAN-55] [RHS-26] one touch puts a person into the cockpit, whose starter turns the engine while it is held", async () => {
  const page = await begin("Be the cockpit");
  await page.locator('.panel[data-kind="cockpit"]').waitFor();
  const starter = page.getByRole("button", { name: "Starter (hold)" });
  const rpm = page.locator(".rehearsal-instruments dl > div", { hasText: "rpm" }).first();
  await rpm.waitFor();
  await starter.hover();
  await page.mouse.down();
  await expect
    .poll(async () => Number.parseInt((await rpm.locator("b").textContent()) ?? "0", 10))
    .toBeGreaterThan(40);
  await page.mouse.up();
  await expect.poll(async () => Number.parseInt((await rpm.locator("b").textContent()) ?? "0", 10)).toBe(0);
  await page.context().close();
});

it("[PAN-7] [RHS-52] axe finds no fault on the editor of scripts, with faults that do not fit yet and with one that does", async () => {
  const seat = await Seat.open(browser, server.url, "merryn");
  await seat.turnTo("/rehearse");
  await seat.press("Write a script");
  for (let fault = 1; fault <= 2; fault += 1) await seat.press("Add a fault");
  const troubles = seat.page.getByRole("status", { name: "What does not fit yet" }).getByRole("listitem");
  await troubles.first().waitFor();
  expect(await axeInEachLight(seat.page)).toEqual([]);
  await seat.press("Leave it as it is");
  await seat.press("Copy and change it");
  await seat.press("Add a fault");
  expect(await troubles.count()).toBe(0);
  expect(await axeInEachLight(seat.page)).toEqual([]);
  expect(seat.complaints).toEqual([]);
  await seat.context.close();
});
