import type { RecordEvent, RecordFact } from "../protocol/recordEvents.ts";
import type { Contribution, EngineHistory, Item, LastReported, StandingItem } from "../protocol/standing.ts";
import { withWords, wordsOf } from "./locate.ts";
import { withMended } from "./mended.ts";
import { newestCount } from "./newestCount.ts";
import { type AircraftRecord, isOfPropeller, keyOf, NOTHING_REPORTED } from "./record.ts";

const STARTER_USES_KEPT = 12;

/**
 * Returns the record after one more event. Pure, and the only way a record changes.
 * @throws Error when the event does not follow: another record, a gap in the numbers, or a first event of another kind
 */
export function evolveRecord(record: AircraftRecord | null, event: RecordEvent): AircraftRecord {
  const { fact } = event;
  if (record === null) {
    if (fact.type !== "opened" || event.seq !== 1)
      throw new Error("a record begins by being opened, event 1");
    return opened(event, fact);
  }
  if (event.session !== record.id) throw new Error(`event of ${event.session} given to ${record.id}`);
  if (event.seq !== record.seq + 1) throw new Error(`event ${event.seq} does not follow ${record.seq}`);
  return { ...apply(record, fact), seq: event.seq, at: event.at };
}

function opened(event: RecordEvent, fact: Extract<RecordFact, { type: "opened" }>): AircraftRecord {
  return {
    v: 1,
    id: event.session,
    seq: event.seq,
    at: event.at,
    aircraft: fact.aircraft,
    items: [],
    nextNo: 1,
    endedElsewhere: [],
    engines: Array.from({ length: fact.engines }, (_, i) => ({
      n: i + 1,
      starter: [],
      blades: null,
      lastRanAt: null,
    })),
    lastReported: NOTHING_REPORTED,
    open: {},
  };
}

function apply(record: AircraftRecord, fact: RecordFact): AircraftRecord {
  switch (fact.type) {
    case "opened":
      throw new Error("a record is opened once");
    case "contributed":
      return contributed(record, fact);
    case "reported":
      return added(record, null, [fact.item]);
    case "ended":
      return ended(record, [fact.no]);
    case "located":
      return located(record, [{ no: fact.no, said: [fact.word] }]);
    case "deferred":
      return { ...record, items: record.items.map((i) => (i.no === fact.no ? deferred(i, fact) : i)) };
    case "mended":
      return mended(record, [fact]);
    case "inspected":
      return ended(record, [fact.no]);
    // Pictures change nothing of what stands at the aircraft: see `defects/lives.ts`.
    case "pictured":
    case "pictureRemoved":
      return record;
  }
}

/** Returns the record with more words of where its fires burn. */
function located(record: AircraftRecord, told: NonNullable<Contribution["located"]>): AircraftRecord {
  if (told.length === 0) return record;
  const items = record.items.map((i) => {
    const words = told.find((t) => t.no === i.no)?.said;
    return words === undefined ? i : { ...i, item: withWords(i.item, words) };
  });
  return { ...record, items };
}

/** Returns the defect with its new deferral, of which no start is used up. */
function deferred(
  standing: StandingItem,
  { deferral }: Extract<RecordFact, { type: "deferred" }>,
): StandingItem {
  if (standing.item.is !== "defect") return standing;
  const { startedSince: _before, ...defect } = standing.item;
  return { ...standing, item: { ...defect, deferred: deferral } };
}

/** Returns the record with more mendings of its defects. */
function mended(record: AircraftRecord, told: NonNullable<Contribution["mended"]>): AircraftRecord {
  if (told.length === 0) return record;
  const items = record.items.map((i) => ({
    ...i,
    item: withMended(i.item, told.find((t) => t.no === i.no)?.mended),
  }));
  return { ...record, items };
}

/**
 * Returns the record with the session counted against each deferral by starts, once it has engaged a starter that the
 * defect is about since the defect was deferred. A session counts once, however often it cranks.
 */
function started(record: AircraftRecord, session: string, engines: readonly EngineHistory[]): AircraftRecord {
  const used = (n: number, since: number): boolean => {
    const known = record.engines.find((e) => e.n === n)?.starter ?? [];
    const told = engines.find((e) => e.n === n)?.starter ?? [];
    return told.some(({ on }) => on >= since && !known.some((use) => use.on === on));
  };
  const items = record.items.map((i): StandingItem => {
    const { item } = i;
    if (item.is !== "defect" || item.deferred?.starts === undefined) return i;
    const since = item.deferred.by.at;
    const before = item.startedSince ?? [];
    const counts = engines.some(({ n }) => (item.engine === null || item.engine === n) && used(n, since));
    if (!counts || before.includes(session)) return i;
    return { ...i, item: { ...item, startedSince: [...before, session] } };
  });
  return { ...record, items };
}

/** Returns the item as its session reports it, with what others said or mended. */
function withLater(now: Item, before: Item): Item {
  const words = withWords(now, wordsOf(before));
  return before.is === "defect" ? withMended(words, before.mended) : words;
}

/** Replaces the session's earlier contribution with the present one. An item keeps its number while it is open. */
function contributed(
  before: AircraftRecord,
  { session, through, over, contribution }: Extract<RecordFact, { type: "contributed" }>,
): AircraftRecord {
  const known = located(ended(before, contribution.ended), contribution.located ?? []);
  const record = started(mended(known, contribution.mended ?? []), session, contribution.engines);
  const gone = new Set(record.endedElsewhere.filter((e) => e.session === session).map((e) => keyOf(e.item)));
  const told = contribution.items.filter((item) => !gone.has(keyOf(item)));
  const keys = new Map(told.map((item) => [keyOf(item), item]));
  const numbered = new Set(record.items.filter((i) => i.session === session).map((i) => keyOf(i.item)));
  const kept = record.items.flatMap((i): StandingItem[] => {
    if (i.session !== session) return [i];
    const now = keys.get(keyOf(i.item));
    // Words and mends from elsewhere are not lost, although the session does not know them yet.
    return now ? [{ ...i, item: withLater(now, i.item) }] : [];
  });
  const fresh = told.filter((item) => !numbered.has(keyOf(item)));
  const { [session]: _before, ...others } = record.open;
  return added(
    {
      ...record,
      items: kept,
      engines: united(record.engines, contribution.engines),
      lastReported: latest(record.lastReported, contribution.lastReported),
      open: over ? others : { ...others, [session]: through },
      endedElsewhere: record.endedElsewhere.filter(
        (e) => e.session !== session || (!over && !stoppedSince(e.item, contribution)),
      ),
    },
    session,
    fresh,
  );
}

/** A propeller that was seen still, and of which its own session says the same: when it turns again, that is a new item. */
function stoppedSince(item: Item, { items }: Contribution): boolean {
  return isOfPropeller(item) && !items.some((i) => keyOf(i) === keyOf(item));
}

function added(record: AircraftRecord, session: string | null, items: readonly Item[]): AircraftRecord {
  const numbered = items.map((item, i): StandingItem => ({ no: record.nextNo + i, session, item }));
  return { ...record, items: [...record.items, ...numbered], nextNo: record.nextNo + items.length };
}

function ended(record: AircraftRecord, numbers: readonly number[]): AircraftRecord {
  const over = record.items.filter((i) => numbers.includes(i.no));
  if (over.length === 0) return record;
  const toTell = over.flatMap(({ session, item }) =>
    session !== null && record.open[session] !== undefined ? [{ session, item }] : [],
  );
  return {
    ...record,
    items: record.items.filter((i) => !numbers.includes(i.no)),
    endedElsewhere: [...record.endedElsewhere, ...toTell],
  };
}

/** Returns the histories of all engines that either list names. */
function united(before: readonly EngineHistory[], told: readonly EngineHistory[]): EngineHistory[] {
  const numbers = [...new Set([...before, ...told].map((e) => e.n))].sort((a, b) => a - b);
  return numbers.map((n) => {
    const known = before.find((e) => e.n === n) ?? { n, starter: [], blades: null, lastRanAt: null };
    return merged(
      known,
      told.find((e) => e.n === n),
    );
  });
}

/** Returns both histories as one: every starter use once, the later run, and any blade count made since then. */
function merged(before: EngineHistory, told: EngineHistory | undefined): EngineHistory {
  if (!told) return before;
  const uses = new Map(before.starter.map((use) => [use.on, use]));
  for (const use of told.starter) {
    const known = uses.get(use.on);
    uses.set(use.on, known && use.off === null ? known : use);
  }
  const starter = [...uses.values()].sort((a, b) => a.on - b.on).slice(-STARTER_USES_KEPT);
  const ran = [before.lastRanAt, told.lastRanAt].filter((at) => at !== null);
  const lastRanAt = ran.length === 0 ? null : Math.max(...ran);
  const newest = newestCount(before.blades, told.blades);
  const blades = newest !== null && (lastRanAt === null || newest.by.at > lastRanAt) ? newest : null;
  return { n: before.n, starter, blades, lastRanAt };
}

function latest(before: LastReported, told: LastReported): LastReported {
  return {
    chocks: newer(before.chocks, told.chocks),
    brakes: newer(before.brakes, told.brakes),
    groundPower: newer(before.groundPower, told.groundPower),
  };
}

function newer<T extends { by: { at: number } }>(a: T | null, b: T | null): T | null {
  if (!a || !b) return b ?? a;
  return b.by.at >= a.by.at ? b : a;
}
