import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { KEEPS_NOTHING, openBrowser, PATIENCE } from "./seat.ts";
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
