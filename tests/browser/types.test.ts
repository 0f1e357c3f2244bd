import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { axeFaults } from "./measure.ts";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

async function get(seat: Seat, path: string) {
  const headers = { authorization: `Bearer ${await seat.token()}` };
  return (await fetch(server.url + path, { headers })).json();
}

it("[HSE-4] [TYP-2] [TYP-5] [TYP-13] [TYP-7] [TYP-9] [TYP-10] a limit is edited, its fault named and corrected, the version approved by another person, an aircraft moved to it and planned", async () => {
  const author = await Seat.open(browser, server.url, "wenna");
  await author.press("Aircraft types");
  await author.page.getByRole("heading", { name: /Kestle/ }).waitFor();
  await author.press(/^Version 1 Approved/, author.page.getByRole("region", { name: /Kestle/ }));
  await author.sees(/^Drawn facing forward/);
  expect(await axeFaults(author.page)).toEqual([]);
  await author.press("Make a new draft of it");

  await author.press(/^Oil\b/, author.page.getByRole("navigation", { name: "Parts of the type" }));
  const normal = author.page.getByRole("group", { name: "Normal", exact: true }).first();
  const within = normal.getByRole("group", { name: "Within", exact: true }).getByLabel("Value");
  const save = author.page.getByRole("button", { name: "Save", exact: true });
  const before = await within.inputValue();
  await within.fill("soon");
  await author.sees("✕ a number is needed");
  expect(await within.getAttribute("aria-invalid")).toBe("true");
  await author.sees("1 fault to mend before it can be saved.");
  expect(await save.isDisabled()).toBe(true);
  expect(await axeFaults(author.page)).toEqual([]);
  await within.fill("");
  await author.sees("Oil, normal, within, value: a number is needed");
  await within.fill("1");
  await author.sees(/first indication cannot be due later/);
  await within.fill("1500");
  await author.sees("No faults, not saved.");
  await author.page
    .getByRole("cell", { name: `Saved: ${before} s` })
    .or(author.page.getByText(`${before} s`))
    .first()
    .waitFor();
  await save.click();
  await author.sees("Saved, no faults.");
  await author.press("To the version");
  await author.sees("You worked on this draft. A second person must approve it.");
  expect(await author.page.getByRole("button", { name: /^Approve/ }).count()).toBe(0);

  const second = await Seat.open(browser, server.url, "jory");
  await second.page.goto(`${server.url}/types/kestle-four/2`);
  await second.press("See what differs from version 1");
  const row = second.page.getByRole("row", { name: /^Oil, normal, within/ });
  await row.waitFor();
  expect(await row.getByRole("cell").allInnerTexts()).toEqual([`${before} s`, "1500 s"]);
  expect(await second.page.locator(".difference tbody tr").count()).toBe(1);
  await second.press("To version 2");
  await second.page
    .getByLabel("I am Jory Penhallick, and I checked every figure against its source.")
    .check();
  const approve = second.page.getByRole("button", { name: "Approve version 2" });
  expect(await approve.isDisabled()).toBe(true);
  const pin = second.page.getByLabel("Your PIN again");
  await pin.fill("00000000");
  await approve.click();
  await second.sees("That is not Jory Penhallick's PIN: nothing was approved");
  expect(await pin.inputValue()).toBe("");
  second.complaints.length = 0;
  await pin.fill(demo.people.find((p) => p.handle === "jory")?.pin ?? "");
  await approve.click();
  await second.sees(/Approved by Jory Penhallick/);
  expect(await second.page.getByRole("button", { name: "Edit this draft" }).count()).toBe(0);

  await second.press("All types");
  await second.press("Back to the ramp");
  await second.press("Plan a start");
  await second.press(/^Morning Tide/);
  await second.press("See what changes");
  await second.page.locator(".difference tbody tr").waitFor();
  await second.page.goBack();
  await second.press("Move to version 2");
  await second.press("Touch again to move");
  await second.sees("Can be planned");
  expect(await axeFaults(second.page)).toEqual([]);
  await second.press("Plan a start");
  await second.page.getByRole("textbox", { name: "Place" }).fill("Stand 4");
  await second.press("Plan this start");
  await second.page.waitForURL(/\/session\//);
  const { state } = await get(second, `/api/sessions/${second.page.url().split("/").at(-1)}`);
  expect(state.type).toMatchObject({ version: 2, approvedBy: "Jory Penhallick" });
  expect(state.type.oil.normal.within.value).toBe(1500);
  expect([...author.complaints, ...second.complaints]).toEqual([]);
});

it("[TYP-1] [TYP-10] every part of the published schema can be edited, and list items added and removed", async () => {
  const seat = await Seat.open(browser, server.url, "wenna");
  await seat.page.goto(`${server.url}/types/penhale-twin/1`);
  await seat.press("Make a new draft of it");
  await seat.sees("Saved, no faults.");
  const schema = await get(seat, "/api/types/schema");
  const parts = seat.page.getByRole("navigation", { name: "Parts of the type" }).getByRole("button");
  const large = ["engines", "starter", "oil", "gauges", "checks", "drills", "timing", "conditions"];
  for (const name of large) expect(Object.keys(schema.properties)).toContain(name);
  for (let i = 0; i < (await parts.count()); i += 1) {
    await parts.nth(i).click();
    expect(
      await seat.page.locator(".edit-form :is(input, select, textarea, .tf-none)").count(),
    ).toBeGreaterThan(0);
    expect(await seat.page.getByText("(JSON)").count()).toBe(0);
  }
  await seat.press(/^Starter\b/, seat.page.getByRole("navigation", { name: "Parts of the type" }));
  const rungs = seat.page
    .getByRole("group", { name: "Ladder", exact: true })
    .first()
    .locator("> .tf-list > li");
  const count = await rungs.count();
  await seat.press("Add to: Ladder");
  expect(await rungs.count()).toBe(count + 1);
  await seat.sees(/^Starter, ladder, .*source, document or person: must not be empty$/);
  await seat.press(`Take out: ${count + 1}`);
  await seat.sees("Saved, no faults.");
  expect(seat.complaints).toEqual([]);
});

it("[TYP-8] [TYP-14] a faulty file is refused with every fault named; a good one becomes a draft, which can be discarded", async () => {
  const seat = await Seat.open(browser, server.url, "wenna");
  await seat.page.goto(`${server.url}/types`);
  const file = await get(seat, "/api/types/carrack-three/1/export");
  const pick = (content: string) =>
    seat.page
      .getByLabel("Import a file")
      .setInputFiles({ name: "type.json", mimeType: "application/json", buffer: Buffer.from(content) });
  await pick("{");
  await seat.sees("type.json is not a JSON file.");
  await pick(JSON.stringify({ ...file, type: { ...file.type, name: "", engines: [] } }));
  await seat.sees("type.name: must not be empty");
  await seat.sees("type.engines: needs at least 1 item");
  seat.complaints.length = 0;
  await pick(JSON.stringify(file));
  await seat.sees("carrack-three, version 2");
  await seat.sees(/Not approved: cannot be planned/);
  await seat.press("Discard this draft");
  await seat.sees("Version 2 is deleted for ever. Its number is not used again.");
  await seat.press("Discard version 2");
  await seat.page.getByRole("heading", { name: "Aircraft types" }).waitFor();
  const carrack = seat.page.getByRole("region", { name: /Carrack/ });
  await carrack.getByText("Version 1").waitFor();
  expect(await carrack.getByText("Version 2").count()).toBe(0);
  expect(seat.complaints).toEqual([]);
});
