import { readFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { axeFaults } from "./measure.ts";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;
let office: Seat;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  office = await Seat.open(browser, server.url, "merryn");
  await office.turnTo("/house");
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

/** Saves the list of aircraft and returns what is in the file. */
async function saved(): Promise<string> {
  const download = office.page.waitForEvent("download");
  await office.press("Save as a file: Aircraft");
  const file = await download;
  expect(file.suggestedFilename()).toBe("chockside-aircraft.csv");
  return readFile(await file.path(), "utf8");
}

/** Gives a file to the list of aircraft. */
const read = (name: string, csv: string) =>
  office.page
    .getByLabel("Read a file: Aircraft")
    .setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(csv) });

it("[HSE-30] a list is saved on the house's page, changed, looked at line by line, and taken in whole", async () => {
  const before = await saved();
  expect(before).toContain("QX-KIV,Morning Tide,");
  const changed = before.replace("QX-KIV,Morning Tide,", "QX-KIV,Evening Tide,");
  await read("mended.csv", changed);
  const judged = office.page.getByRole("region", { name: "mended.csv" });
  await judged.getByText(/^1 line would change something, \d+ would not\.$/).waitFor();
  expect(await judged.locator(".list-changes > li").allInnerTexts()).toEqual([
    expect.stringMatching(/^QX-KIV changes \(line \d+\)\s+name\s+Morning Tide → Evening Tide$/),
  ]);
  // A look changes nothing.
  expect(await saved()).toBe(before);
  await office.press("Take 1 line in");
  await office.sees("mended.csv was taken in.");
  expect(await saved()).toBe(changed);
  expect(office.complaints).toEqual([]);
});

it("[HSE-30] a faulty file is told with the place of each fault, cannot be taken in, and nothing of it is", async () => {
  const before = await saved();
  const [head = ""] = before.split("\r\n");
  const cells = head.split(",");
  const line = (id: string, name: string, type: string) =>
    cells.map((c) => ({ registration: id, name, type })[c] ?? "").join(",");
  const good = line("QX-NEW", "New Tide", "kestle-four");
  await read("faulty.csv", `${head}\r\n${good}\r\n${line("QX-BAD", "Bad Tide", "no-type")}\r\n`);
  const judged = office.page.getByRole("region", { name: "faulty.csv" });
  await judged.getByRole("alert").getByText("1 fault. Mend the file and read it again.").waitFor();
  expect(await judged.locator(".fault-list > li").allInnerTexts()).toEqual([
    expect.stringMatching(/^Line 3, type: \S/),
  ]);
  expect(await judged.getByRole("button").allInnerTexts()).toEqual(["Leave everything as it is"]);
  await office.press("Leave everything as it is");
  await judged.waitFor({ state: "detached" });
  expect(await saved()).toBe(before);
  expect(office.complaints).toEqual([]);
});

it("[INT-32] a supervisor maps a channel to a gauge on the aircraft's page, and everybody sees it there", async () => {
  await office.turnTo("/aircraft/QX-KIV");
  const part = office.page.getByRole("region", { name: "Instruments" });
  await office.press("Map the channels");
  await part.getByLabel("Channel, Oil pressure, number 3 (psi)").fill("OILP");
  await part.getByLabel("Quality, Oil pressure, number 3 (psi)").fill("1 psi, checked in May");
  // Another channel is unmapped by an empty name.
  await part.getByLabel("Channel, Oil pressure, number 2 (psi)").fill("");
  expect(await axeFaults(office.page)).toEqual([]);
  await office.press("Keep the channels");
  await part.getByText("OILP, psi, 1 psi, checked in May").waitFor();
  const rows = await part.getByRole("listitem").allInnerTexts();
  expect(rows.filter((row) => row.startsWith("Oil pressure, number 3"))).toEqual([
    expect.stringMatching(/^Oil pressure, number 3 \(psi\)\s+OILP, psi, 1 psi, checked in May$/),
  ]);
  expect(rows.filter((row) => row.startsWith("Oil pressure, number 2"))).toEqual([]);
  const anybody = await Seat.open(browser, server.url, "cador");
  await anybody.turnTo("/aircraft/QX-KIV");
  await anybody.sees("OILP, psi, 1 psi, checked in May");
  expect(await anybody.page.getByRole("button", { name: "Map the channels" }).count()).toBe(0);
  expect([...office.complaints, ...anybody.complaints]).toEqual([]);
});
