import { expect, it } from "vitest";
import { Stage } from "../../seed/crew/stage.ts";
import twin from "../../seed/types/penhale-twin.json" with { type: "json" };
import { noPseudonyms } from "../../server/evidence/names.ts";
import { SESSIONS_READ, StartHistories } from "../../server/history/starts.ts";
import { rowOf } from "../../server/sessions/row.ts";
import { sha256 } from "../../server/sha256.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
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
  const histories = new StartHistories(store);
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
  const [before, after] = [new StartHistories(store), new StartHistories(store)];
  expect(await after.of(new Set(["QX-TST"]))).toEqual(await before.of(new Set(["QX-TST"])));
});

it("[HIS-40] reads the sessions of the aircraft that it is asked of alone, the newest up to a bound", async () => {
  const asked: [string, number][] = [];
  const row = (aircraft: string, n: number) => ({
    ...{ id: `${aircraft}-${n}`, code: "A", planCommand: "a", aircraft, typeId: "t", typeVersion: 1 },
    ...{ typeName: "T", place: "P", stage: "closed", needs: 0, createdAt: n, closedAt: n, headSeq: 0 },
    ...{ headHash: "", headAt: n },
  });
  const histories = new StartHistories({
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
