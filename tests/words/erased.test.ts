import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { erasedName, mapNames } from "../../shared/evidence/pseudonyms.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { recordOf } from "../../shared/paper/record.ts";
import { say as english } from "../../shared/words/en.ts";
import { namedFor } from "../../shared/words/erased.ts";
import { say as spanish } from "../../shared/words/es.ts";

const fixture = new URL("../spec/fixtures/four-engines-1.ndjson", import.meta.url);
const [, ...lines] = readFileSync(fixture, "utf8").trimEnd().split("\n");
const name = erasedName(`person:${"0a1b2c".repeat(11)}`);
const events = lines.map((line) => mapNames(readSealed(line).event, (n) => (n === "Ada" ? name : n)));
const times = (text: string, words: RegExp) => text.match(words)?.length ?? 0;

it("[LNG-11] somebody who was erased is shown as such in the reader's language, by the same six signs", () => {
  expect(name).toBe("Erased person 0a1b2c");
  expect(spanish.person(name)).toBe("Persona borrada 0a1b2c");
  expect(english.person(name)).toBe(name);
  expect(spanish.person("Erased person of letters")).toBe("Erased person of letters");
  expect(namedFor(events, english)).toBe(events);
  const said = times(JSON.stringify(events), /Erased person 0a1b2c/g);
  expect(said).toBeGreaterThan(30);
  const told = JSON.stringify(namedFor(events, spanish));
  expect(times(told, /Persona borrada 0a1b2c/g)).toBe(said);
  expect(told).not.toContain("Erased");
  const record = JSON.stringify(recordOf(namedFor(events, spanish), "", spanish));
  expect(record).toContain("Persona borrada 0a1b2c");
  expect(record).not.toContain("Erased");
});
