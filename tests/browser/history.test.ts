import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

/** Making the year on a machine that is busy with other tests. */
const YEAR_MS = 200_000;

let server: TestServer;
let browser: Browser;
beforeAll(async () => {
  server = new TestServer({ year: "QX-PEN", crews: true });
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.end();
});

describe("the history of the demo's engines", () => {
  it("[HIS-14, HIS-15, HIS-26, HIS-31, HIS-45] shows which engine drifts, in a sentence, on charts and in a table that opens the record, and finds what was written", async () => {
    const seat = await Seat.open(browser, server.url, "wenna");
    const { page } = seat;
    // From the ramp, where a newcomer is, by three touches.
    await seat.sees(/Everything in it is invented/);
    await seat.press("Make the year");
    await seat.press("History of QX-PEN", page, YEAR_MS);
    const note = page
      .getByRole("listitem")
      .filter({ hasText: /^Number 2 takes longer to oil pressure than in its 20 starts/ });
    await note.getByRole("button", { name: "Charts" }).click();
    await page.getByRole("heading", { name: "Engine QX-PEN-E2" }).waitFor();
    const figure = page.getByRole("region", { name: "Time to normal oil pressure" });
    await figure.locator(".trend").nth(1).waitFor();
    expect(
      await figure.locator("[data-lane=starts] .trend-dot, [data-lane=starts] .trend-point path").count(),
    ).toBe(28);
    await figure.getByText(/^Table: Time to normal oil pressure/).click();
    expect(await figure.getByRole("row").count()).toBe(29);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    await figure
      .getByRole("button", { name: /^Open the record of/ })
      .first()
      .press("Enter");
    await page.getByRole("heading", { name: "Record: QX-PEN" }).waitFor();
    await seat.press("Aircraft's history");
    await page.getByRole("heading", { name: "History of QX-PEN" }).waitFor();
    await seat.turnTo("/house");
    await seat.press("How starts went");
    const weeks = page.getByRole("region", { name: "Starts by week" });
    await weeks.getByRole("row").nth(10).waitFor();
    await seat.press("104 weeks");
    const alerts = page.getByRole("region", { name: "Alerts" });
    await alerts.getByText(/alerts for each start, .* of them a nuisance/).waitFor();
    const bars = await weeks.locator(".bar-line").evaluateAll((all) => all.map((b) => b.clientWidth));
    expect(Math.max(...bars)).toBeGreaterThan(50);
    const spread = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(spread).toBeLessThanOrEqual(0);
    await search(seat);
    expect(seat.complaints).toEqual([]);
  });
});

/** Searches from the house's page, narrows the question, goes back by the browser, and opens the record of what was found. */
async function search(seat: Seat): Promise<void> {
  const { page } = seat;
  const asked = () => new URL(page.url()).search;
  await seat.turnTo("/house");
  await seat.press("Search");
  await page.getByLabel("Words, or how they begin").fill("wenna trev");
  await page.getByLabel("Words, or how they begin").press("Enter");
  const found = page.locator(".found-row");
  await found.filter({ hasText: "Wenna Trevark" }).first().waitFor();
  expect(asked()).toBe("?q=wenna+trev");
  await page.getByText("Narrow it").click();
  await page.getByLabel("Words, or how they begin").fill("pen");
  await page.getByLabel("Kind").selectOption({ label: "Post taken" });
  await seat.press("Search");
  await page.locator(".found-row .found-kind").filter({ hasText: "Post taken" }).first().waitFor();
  expect(asked()).toBe("?q=pen&kind=post");
  const shown = await found.count();
  await seat.press("Show more");
  await found.nth(shown).waitFor();
  expect(new Set(await page.locator(".found-kind").allTextContents())).toEqual(new Set(["Post taken"]));
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  await page.goBack();
  await found.filter({ hasText: "Plan" }).first().waitFor();
  await seat.press(/^Open the record of/);
  await page.getByRole("heading", { name: /^Record: / }).waitFor();
}
