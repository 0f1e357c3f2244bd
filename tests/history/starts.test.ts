import { expect, it } from "vitest";
import { Stage } from "../../seed/crew/stage.ts";
import twin from "../../seed/types/penhale-twin.json" with { type: "json" };
import { noPseudonyms } from "../../server/evidence/names.ts";
import { SESSIONS_READ, StartHistories } from "../../server/history/starts.ts";
import { rowOf } from "../../server/sessions/row.ts";
import { sha256 } from "../../server/sha256.ts";
import type { EventStore } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { MemorySearchIndex } from "../../server/store/memory-search-index.ts";
import type { SearchIndex } from "../../server/store/search-index.ts";
import { storeSession } from "../../server/store-session.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import { NO_STARTS, startsAfter } from "../../shared/history/project.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { aircraftTypeSchema } from "../../shared/types/schema.ts";
import { playOut } from "../seed/stage.ts";

const TWIN = aircraftTypeSchema.parse(twin);

/** A store that counts how many events were read from it. */
class CountingStore extends MemoryEventStore {
  events = 0;
  override async read(session: string, since: number, limit: number) {
    const page = await super.read(session, since, limit);
    this.events += page.length;
    return page;
  }
}

function played(id: string): Stage {
  const stage = new Stage(TWIN, "groundPower", { id });
  stage.everyoneClaims();
  playOut(stage, { seed: 4, pace: 1, cart: "Knocker" });
  return stage;
}

const PLAN = { code: "A", planCommand: "a", createdAt: 1 };
const over = (
  store: Pick<EventStore, "sessions" | "sessionsOf" | "read">,
  index: Pick<SearchIndex, "keepStarts" | "startsOf"> = new MemorySearchIndex(),
) => new StartHistories({ store, index, log: { error() {} } });

it("[HIS-12] reads each event once: a session that goes on from where it was, one that is over never again", async () => {
  const store = new CountingStore();
  const stage = played("s-1");
  let head = genesis("s-1", sha256);
  let state: SessionState | null = null;
  const sealed = stage.events.map((event) => {
    const one = seal(event, head, sha256);
    head = one.hash;
    state = evolve(state, event);
    const row = rowOf({ code: "A", planCommand: "a", createdAt: event.at }, state, head);
    return { event: { ...one, at: event.at, command: event.command, type: event.fact.type }, row };
  });
  const append = async (from: number, to: number) => {
    const events = sealed.slice(from, to).map((s) => s.event);
    const row = sealed[to - 1]?.row;
    if (row) await store.append({ expected: from, events, row });
  };
  const histories = over(store);
  const all = new Set(["QX-TST"]);
  const half = 70;
  await append(0, half);
  const first = await histories.of(all);
  expect(first.rows).toEqual(startsAfter(NO_STARTS, stage.events.slice(0, half)).rows);
  expect([first.rows.length > 0, store.events]).toEqual([true, half]);
  await append(half, sealed.length);
  // Two who ask at once share one reading.
  const [whole, same] = await Promise.all([histories.of(all), histories.of(all)]);
  expect(whole.rows).toEqual(startsAfter(NO_STARTS, stage.events).rows);
  expect(same).toEqual(whole);
  expect(store.events).toBe(sealed.length);
  await histories.of(all);
  expect(store.events).toBe(sealed.length);
  expect((await histories.of(new Set(["QX-TWO"]))).rows).toEqual([]);
});

it("[HIS-12] gives after a restart what it gave before", async () => {
  const store = new MemoryEventStore();
  for (const id of ["s-1", "s-2"])
    await storeSession({ store, names: noPseudonyms }, played(id), {
      code: id,
      planCommand: id,
      createdAt: 1,
    });
  const [before, after] = [over(store), over(store)];
  expect(await after.of(new Set(["QX-TST"]))).toEqual(await before.of(new Set(["QX-TST"])));
});

it("[HIS-40] reads the sessions of the aircraft that it is asked of alone, the newest up to a bound", async () => {
  const asked: [string, number][] = [];
  const row = (aircraft: string, n: number) => ({
    ...{ id: `${aircraft}-${n}`, code: "A", planCommand: "a", aircraft, typeId: "t", typeVersion: 1 },
    ...{ typeName: "T", place: "P", stage: "closed", needs: 0, createdAt: n, closedAt: n, headSeq: 0 },
    ...{ headHash: "", headAt: n },
  });
  const histories = over({
    sessions: async () => {
      throw new Error("asked for the sessions of all aircraft");
    },
    sessionsOf: async (aircraft, limit) => {
      asked.push([aircraft, limit]);
      return Array.from({ length: limit }, (_, i) => row(aircraft, limit - i));
    },
    read: async () => [],
  });
  expect(await histories.of(new Set(["QX-ONE", "QX-TWO"]))).toEqual({ rows: [], more: true });
  expect(asked).toEqual([
    ["QX-ONE", 2 * SESSIONS_READ + 1],
    ["QX-TWO", 2 * SESSIONS_READ + 1],
  ]);
});

it("[HIS-42] reads what is kept of a session that is over, and its events where that is not of this record", async () => {
  const store = new CountingStore();
  await storeSession({ store, names: noPseudonyms }, played("s-1"), PLAN);
  const index = new MemorySearchIndex();
  const all = new Set(["QX-TST"]);
  const fromEvents = await over(store, index).of(all);
  const [made, read] = [fromEvents.rows.length, store.events];
  expect([made > 0, read > 0]).toEqual([true, true]);
  // Another server, with nothing in memory.
  expect(await over(store, index).of(all)).toEqual(fromEvents);
  expect(await over(store, index).since(0)).toEqual(await over(store).since(0));
  expect(store.events).toBe(2 * read);
  const [kept] = await index.startsOf(["s-1"]);
  if (!kept) throw new Error("the starts are kept");
  const spoilt = [
    { ...kept, headHash: "0".repeat(64), body: kept.body.replaceAll("QX-TST", "QX-LIE") },
    { ...kept, body: kept.body.slice(1) },
    { ...kept, body: JSON.stringify({ ...JSON.parse(kept.body), more: 1 }) },
  ];
  for (const one of spoilt) {
    await index.keepStarts(one);
    expect(await over(store, index).of(all)).toEqual(fromEvents);
    expect(await index.startsOf(["s-1"])).toEqual([kept]);
  }
  expect(store.events).toBe(5 * read);
});

it("[HIS-42] keeps nothing of a session that goes on", async () => {
  const store = new CountingStore();
  const stage = new Stage(TWIN, "groundPower", { id: "s-1" });
  stage.everyoneClaims();
  playOut(stage, { seed: 4, pace: 1, cart: "Knocker" }, ({ engines }) =>
    engines.some((e) => e.life.is === "stable"),
  );
  await storeSession({ store, names: noPseudonyms }, stage, PLAN);
  const index = new MemorySearchIndex();
  expect((await over(store, index).of(new Set(["QX-TST"]))).rows.length).toBeGreaterThan(0);
  expect(await index.startHeads()).toEqual(new Map());
});

it("[HIS-42] gives the starts from the events where the index cannot be read or written", async () => {
  const store = new CountingStore();
  await storeSession({ store, names: noPseudonyms }, played("s-1"), PLAN);
  const broken = async () => {
    throw new Error("no index");
  };
  const told: string[] = [];
  const histories = new StartHistories({
    store,
    index: { keepStarts: broken, startsOf: broken },
    log: { error: (_, message) => told.push(message) },
  });
  const all = new Set(["QX-TST"]);
  expect(await histories.of(all)).toEqual(await over(store).of(all));
  expect(told).toHaveLength(2);
});
