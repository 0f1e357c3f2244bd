import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openBrowser, PATIENCE } from "./seat.ts";
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
  const page = await (await browser.newContext({ viewport: { width: 1180, height: 820 } })).newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(server.url);
  await page.getByRole("button", { name: key, exact: true }).click();
  await page.waitForURL(/\/session\//);
  return page;
}

it("[PAN-55] one touch on the sign-in page shows a crew that starts an aircraft", async () => {
  const page = await begin("Watch a crew start one");
  const stage = page.locator(".title-stage strong");
  const posts = page.locator(".title-posts");
  // It takes its posts and goes on by itself, at the pace of people.
  await posts.getByText("Jory").waitFor();
  await expect.poll(() => stage.textContent()).not.toBe("Plan");
  await page.context().close();
});

it("[PAN-55] one touch on the sign-in page puts a person at a post, and the crew plays the others", async () => {
  const page = await begin("Be the fire guard");
  await page.locator('.panel[data-kind="fireGuard"]').waitFor();
  await page.getByText("Were you briefed", { exact: false }).first().waitFor();
  await page.context().close();
});
