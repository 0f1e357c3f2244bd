import type { Post } from "../protocol/posts.ts";
import type { RecordAction, RecordFact } from "../protocol/recordEvents.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { FireWord, Item } from "../protocol/standing.ts";
import type { Attribution } from "../session/attribution.ts";
import { withWords } from "./locate.ts";
import type { AircraftRecord } from "./record.ts";

/** A person who acts on the record outside any session. */
export interface RecordPerson {
  id: string;
  name: string;
  mayHold: readonly Post[];
}

interface RecordContext {
  /** Server milliseconds. */
  now: number;
  /** The house asks that another person inspects a mended defect. */
  inspectsDefects: boolean;
}

export interface RecordVerdict {
  facts: RecordFact[];
  refusal?: Refusal;
}

/**
 * Decides an action on an aircraft's record without a session. A stop is never refused: one about an engine that the
 * aircraft does not have means the whole aircraft.
 */
export function decideRecord(
  record: AircraftRecord,
  action: RecordAction,
  person: RecordPerson,
  { now, inspectsDefects }: RecordContext,
): RecordVerdict {
  const by = { at: now, seq: record.seq + 1, post: null, name: person.name, seenFrom: null };
  const ref = record.nextNo;
  // The same stop by the same person stands once, so that a flood of them changes nothing.
  const report = (item: Item): RecordVerdict =>
    record.items.some((i) => i.session === null && isSame(i.item, item))
      ? { facts: [] }
      : { facts: [{ type: "reported", item }] };
  switch (action.type) {
    case "stop": {
      const engine = knownEngine(record, action.engine);
      if (action.is === "hold") {
        return report({ is: "hold", ref, by, person: person.id, note: action.note ?? null });
      }
      if (action.is === "cut") return report({ is: "cut", ref, by, person: person.id, engine });
      return report({ is: "fire", ref, by, engine, place: action.place ?? "notSaid" });
    }
    case "fireAt":
      return locate(record, action, { by, person: person.id }, report);
    case "writeDefect": {
      const engine = action.engine ?? null;
      if (engine !== null && knownEngine(record, engine) === null) {
        return refusal({ reason: "noSuchEngine", engine, found: `1 to ${record.engines.length}` });
      }
      const { words, barsStart } = action;
      return report({ is: "defect", ref, id: `${record.id}-${ref}`, words, engine, barsStart, by });
    }
    case "deferDefect":
      return defer(record, action, person, by);
    case "inspectDefect":
      return inspect(record, action, person, by);
    case "end":
      return end(record, action, person, inspectsDefects ? by : null);
  }
}

/**
 * Says where a fire burns. About one that does not stand it is a report of its own. The same word by the same person
 * stands once.
 */
function locate(
  record: AircraftRecord,
  { no, engine: named, place = "notSaid" }: Extract<RecordAction, { type: "fireAt" }>,
  who: Pick<FireWord, "by" | "person">,
  report: (item: Item) => RecordVerdict,
): RecordVerdict {
  const word = { ...who, engine: knownEngine(record, named), place };
  const found = record.items.findLast(({ no: n, session, item }) =>
    no === undefined
      ? session === null && item.is === "fire" && item.by.name === who.by.name
      : n === no && item.is === "fire",
  );
  if (!found) {
    return report({ is: "fire", ref: record.nextNo, by: who.by, engine: word.engine, place });
  }
  if (withWords(found.item, [word]) === found.item) return { facts: [] };
  return { facts: [{ type: "located", no: found.no, word }] };
}

/** Returns true if two items are the same report by the same person. */
function isSame(a: Item, b: Item): boolean {
  return said(a) === said(b);
}

function said(item: Item): string {
  const { ref: _number, ...rest } = item;
  const { id: _id, said: _later, ...words } = { id: "", said: [], ...rest };
  return JSON.stringify("by" in words ? { ...words, by: words.by.name } : words);
}

function knownEngine(record: AircraftRecord, engine: number | undefined): number | null {
  return engine !== undefined && record.engines.some((e) => e.n === engine) ? engine : null;
}

/**
 * Ends an item. The person who raised it may, or a person qualified as supervisor with a reason, but only while no
 * session of the aircraft is open: in an open session its own crew ends it. With `mender`, a defect is then mended only,
 * and waits for its inspection.
 */
function end(
  record: AircraftRecord,
  { no, reason }: Extract<RecordAction, { type: "end" }>,
  person: RecordPerson,
  mender: Attribution | null,
): RecordVerdict {
  const standing = record.items.find((i) => i.no === no);
  if (!standing) return refusal({ reason: "nothingOpen" });
  const [session] = Object.keys(record.open);
  if (session !== undefined) return refusal({ reason: "aircraftBusy", found: session });
  const { item } = standing;
  const owner = "person" in item && item.person === person.id;
  if (!owner && !person.mayHold.includes("supervisor")) {
    return refusal({ reason: "notYourHold", posts: ["supervisor"] });
  }
  if (item.is === "defect" && mender !== null) {
    return { facts: [{ type: "mended", no, mended: { reason, by: mender, person: person.id } }] };
  }
  return { facts: [{ type: "ended", no, reason }] };
}

/**
 * Closes a mended defect. A supervisor may who did not mend it last, with what they found, also while a session of the
 * aircraft is open: that session is told. Whoever finds it not mended leaves it, and it still bars.
 */
function inspect(
  record: AircraftRecord,
  { no, reason }: Extract<RecordAction, { type: "inspectDefect" }>,
  { id, mayHold }: RecordPerson,
  by: Attribution,
): RecordVerdict {
  const item = record.items.find((i) => i.no === no)?.item;
  if (item?.is !== "defect" || item.mended === undefined) return refusal({ reason: "nothingOpen" });
  if (!mayHold.includes("supervisor")) return refusal({ reason: "notQualified", posts: ["supervisor"] });
  if (item.mended.person === id) return refusal({ reason: "secondPersonNeeded" });
  return { facts: [{ type: "inspected", no, reason, by, person: id }] };
}

/**
 * Defers a defect to the end of a day, for a number of starts, or to whichever is over first. A supervisor may, while no session of the aircraft is open: in an open session
 * the crew closes the defect, or two people set its condition aside.
 */
function defer(
  record: AircraftRecord,
  { no, until, starts, reason }: Extract<RecordAction, { type: "deferDefect" }>,
  { id, mayHold }: RecordPerson,
  by: Attribution,
): RecordVerdict {
  const item = record.items.find((i) => i.no === no)?.item;
  // Somebody has worked on a mended defect: only its inspection lets the aircraft start.
  if (item?.is !== "defect" || item.mended !== undefined) return refusal({ reason: "nothingOpen" });
  const [session] = Object.keys(record.open);
  if (session !== undefined) return refusal({ reason: "aircraftBusy", found: session });
  if (!mayHold.includes("supervisor")) return refusal({ reason: "notQualified", posts: ["supervisor"] });
  const today = new Date(by.at).toISOString().slice(0, 10);
  if (until !== undefined && until < today)
    return refusal({ reason: "outOfRange", found: `${today} to 9999-12-31` });
  if (until === undefined && starts === undefined)
    return refusal({ reason: "missingFigure", found: "deferral" });
  const over = { ...(until === undefined ? {} : { until }), ...(starts === undefined ? {} : { starts }) };
  return { facts: [{ type: "deferred", no, deferral: { ...over, reason, by, person: id } }] };
}

function refusal(refusal: Refusal): RecordVerdict {
  return { facts: [], refusal };
}
