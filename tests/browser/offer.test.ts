import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { key, openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;
let holder: Seat;
let called: Seat;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  holder = await Seat.open(browser, server.url, "merryn");
  await holder.page.goto(`${server.url}/plan`);
  await holder.press(/^Windhover/);
  await holder.page.getByRole("textbox", { name: "Place" }).fill("Stand 4");
  await holder.press("Plan this start");
  await holder.page.locator(".panel").waitFor();
  await holder.openPosts();
  await holder.press("Take supervisor");
  await holder.press("Close");
  called = await Seat.open(browser, server.url, "keren", { width: 390, height: 844 });
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

async function handOver(): Promise<void> {
  await holder.openPosts();
  await holder.press("Hand over");
  await holder.press(/^Keren/);
  await holder.press("Close");
}

const notice = () => called.page.locator(".offer-call");

it("[PAN-63] an offered post calls the person on whatever page they are, and one touch there takes it", async () => {
  const { page } = called;
  await page.goto(`${server.url}/study`);
  await page.locator(".hand-figure").first().waitFor();
  expect(await notice().count()).toBe(0);
  await handOver();
  await notice().waitFor();
  expect(await notice().textContent()).toMatch(/^Offered to you: supervisorQX-KESTake it$/);
  for (const path of ["/aircraft", "/types", "/people", "/plan", "/"]) {
    await page.goto(`${server.url}${path}`);
    await notice().waitFor();
    const box = await key("Take it", notice()).boundingBox();
    expect(box?.height, path).toBeGreaterThanOrEqual(83);
    expect((box?.x ?? 0) + (box?.width ?? 0), path).toBeLessThanOrEqual(390);
    expect(box?.y, path).toBeLessThan(844);
  }
  await called.press("Take it");
  await page.locator(".title-post[data-mine]").waitFor();
  expect(await page.locator(".title-post[data-mine]").textContent()).toMatch(/^Supervisor/);
  await notice().waitFor({ state: "detached" });
});

it("[PAN-63] the notice goes without a touch when the post is left, and is in the session's own panel too", async () => {
  const { page } = called;
  await called.openPosts();
  await called.press("Leave the post");
  await called.press("Close");
  await holder.openPosts();
  await holder.press("Take supervisor");
  await holder.press("Close");
  await handOver();
  await notice().waitFor();
  expect(await page.locator(".session .offer-call").count()).toBe(1);
  await holder.openPosts();
  await holder.press("Leave the post");
  await notice().waitFor({ state: "detached" });
});
