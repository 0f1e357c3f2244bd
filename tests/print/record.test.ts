import { beforeAll, describe, expect, it } from "vitest";
import { printRecord } from "../../server/print/record.ts";
import { recordOf, type SessionRecord } from "../../shared/paper/record.ts";
import { say } from "../../shared/words/en.ts";
import { exported, given, type Story } from "../spec/given.ts";
import { type ReadPdf, readPdf, redIn, solid } from "./reader.ts";
import { troubled } from "./troubled.ts";

/** Time to print and read back on a machine that is busy with other tests. */
const SLOW_MS = 120_000;

const sheetOf = (story: Story) => recordOf(story.log, exported(story.log).manifest.head, say);

let story: Story;
let record: SessionRecord;
let bytes: Buffer;
let read: ReadPdf;

beforeAll(async () => {
  story = troubled();
  record = sheetOf(story);
  bytes = await printRecord(record, story.now, "full");
  read = await readPdf(bytes);
}, SLOW_MS);

describe("the printed record", () => {
  it("[PRN-1] carries the caution and its number on every page", () => {
    const count = read.pages.length;
    read.pages.forEach((page, i) => {
      expect(solid(page)).toContain(solid(record.caution));
      expect(page).toContain(`${i + 1} of ${count}`);
    });
    expect(count).toBeGreaterThan(4);
  });

  it("[PRN-2] the same record and time give the same bytes; the only date is the one given", async () => {
    expect((await printRecord(sheetOf(troubled()), story.now, "full")).equals(bytes)).toBe(true);
    expect((await printRecord(record, story.now + 1000, "full")).equals(bytes)).toBe(false);
    expect(read.info.CreationDate).toBe("D:20260601090227Z");
    expect(read.info.ModDate).toBeUndefined();
  });

  it("[PRN-3] its text is searchable in the embedded faces, and in no other", () => {
    const names = [...bytes.toString("latin1").matchAll(/\/BaseFont \/(\S+)/g)].map((m) => m[1] ?? "");
    expect(names.length).toBeGreaterThan(2);
    for (const name of names) expect(name).toMatch(/^[A-Z]{6}\+B612/);
    expect(read.solid).toContain(solid("Set aside by a second person"));
  });

  it("[PRN-7] every event stands in the table by its number, time and words", () => {
    const table = solid(read.pages.join(" ").split("Every event")[1] ?? "");
    for (const e of record.events)
      expect(table).toContain(
        solid(`${e.seq} ${new Date(e.at).toISOString().slice(11, 19)} ${e.by} ${e.words}`),
      );
    expect(record.events.map((e) => e.seq)).toEqual(story.log.map((e) => e.seq));
  });

  it("[PRN-8] names everybody at a post, the order, the count of events and the hash of the last", () => {
    for (const name of ["Ada", "Bo", "Cy, then Fay", "Di"]) expect(read.pages[0]).toContain(name);
    expect(read.pages[0]).toContain("3-4-2-1");
    expect(read.pages[0]).toContain(record.headHash);
    expect(read.pages.at(-1)).toContain(record.headHash);
    expect(read.pages.at(-1)).toContain(`${story.log.length} events.`);
  });

  it("[PRN-9] what was set aside, what passed a limit and every stop is there with who ended it", () => {
    for (const words of [
      "SET ASIDE: Wind within limits, number 3",
      "Ada, cockpit, 09:00:00: sock hangs down",
      "Di, supervisor, 09:00:00: seen from the tower",
      "LIMIT PASSED, number 3: starter 43 s, limit 40 s",
      "Ended by Ed, observer, 09:00:04",
      "First to say it is out: Bo, fire guard",
      "Engine stopped: Ada, cockpit",
      "does not apply, Bo, fire guard, 09:02:22 (cannot reach it)",
      "Starter of 4 runs hot BLOCKS THE START.",
      "24.5 V 26 to 29 V OUT OF RANGE",
    ])
      expect(read.solid).toContain(solid(words));
  });

  it("[PRN-9] what nobody may overlook is printed in red", async () => {
    const red = await redIn(bytes);
    for (const e of record.events)
      if (e.red) expect(red).toContain(solid(e.words));
      else expect(red).not.toContain(solid(`${e.by} ${e.words}`));
    for (const words of [
      "SET ASIDE: Wind within limits",
      "43.0 of 40 PAST",
      "OUT OF RANGE",
      "BLOCKS THE START",
    ])
      expect(red).toContain(solid(words));
    expect(record.events.filter((e) => e.red).map((e) => e.words.split(/[:,]/)[0])).toEqual([
      "Set aside asked",
      "Set aside by a second person (seen from the tower)",
      "LIMIT PASSED",
      "Fire at number 4",
      "Cut all engines",
    ]);
  });

  it("[PRN-10] a long session takes more pages, and each of them is headed", async () => {
    const short = await readPdf(await printRecord(sheetOf(given().manned()), story.now, "full"));
    expect(read.pages.length).toBeGreaterThan(short.pages.length);
    for (const page of read.pages) expect(page).toContain("Start record CH-TST");
  });

  it("[PRN-7] the short form of a start without trouble takes two pages at most, and ends in the same hash", async () => {
    const quiet = sheetOf(given().manned());
    const short = await readPdf(await printRecord(quiet, story.now, "short"));
    expect(short.pages.length).toBeLessThanOrEqual(2);
    expect(short.pages.at(-1)).toContain(quiet.headHash);
    expect(short.solid).not.toContain(solid("Every event"));
    expect(short.solid).not.toContain(solid("Nobody stopped anything."));
  });

  it("[PRN-7] the short form keeps all that was not normal", async () => {
    const short = await readPdf(await printRecord(record, story.now, "short"));
    expect(short.pages.length).toBeLessThan(read.pages.length);
    for (const stop of record.stops) expect(short.solid).toContain(solid(stop.words));
    for (const e of record.exceedances) expect(short.solid).toContain(solid(e.words));
    for (const v of record.volts.filter((one) => one.good === false))
      expect(short.solid).toContain(solid(v.figure));
  });

  it("[PRN-10] says so where nothing happened", async () => {
    const quiet = await readPdf(await printRecord(sheetOf(given().manned()), story.now, "full"));
    for (const words of [
      "Nothing set aside, no limit passed, no stop, no refusal.",
      "No condition was set aside.",
      "Nobody stopped anything.",
    ])
      expect(quiet.solid).toContain(solid(words));
  });
});
