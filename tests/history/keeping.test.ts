import { expect, it } from "vitest";
import { StartsKeeping } from "../../server/history/keeping.ts";
import type { SessionRow } from "../../server/store/events.ts";
import { MemorySearchIndex } from "../../server/store/memory-search-index.ts";
import type { Moved } from "../../server/store/moves.ts";
import { REHEARSAL_ID } from "../../shared/protocol/rehearsal.ts";
import { HandClock } from "../http/hand-clock.ts";

const MINUTE = 60_000;

function house() {
  const rows = new Map<string, SessionRow>();
  const index = new MemorySearchIndex();
  const asked: string[] = [];
  const told: string[] = [];
  let heads: SessionRow[] = [];
  let mark: string | null = null;
  const add = (id: string, stage: string, headHash = `${id}-end`) => {
    const row = {
      ...{
        id,
        stage,
        headHash,
        headSeq: 9,
        headAt: 9,
        code: id,
        planCommand: id,
        aircraft: "QX-TST",
        place: "P",
      },
      ...{ typeId: "t", typeVersion: 1, typeName: "T", needs: 0, createdAt: 1 },
      closedAt: stage === "closed" || stage === "abandoned" ? 9 : null,
    };
    rows.set(id, row);
    heads.push(row);
  };
  const needs = {
    store: {
      moved: async (since: string | null): Promise<Moved> => {
        if (since !== mark) throw new Error(`asked from ${since}`);
        const moved = heads;
        heads = [];
        mark = String(Number(mark) + 1);
        return { all: since === null, heads: moved, gone: [], mark };
      },
      session: async (id: string) => rows.get(id) ?? null,
    },
    index,
    starts: {
      keep: async ({ id, headHash }: SessionRow) => {
        asked.push(id);
        if (id === "s-damaged") throw new Error("it cannot be read");
        await index.keepStarts({ session: id, headHash, body: "{}" });
      },
    },
    log: { error: (_: object, message: string) => told.push(message) },
  };
  return { add, index, asked, told, needs, hand: new HandClock() };
}

it("[HIS-43] keeps the starts of every session that is over, one at a time, and those that end later", async () => {
  const { add, index, asked, needs, hand } = house();
  add("s-1", "closed");
  add("s-2", "starting");
  add("s-3", "abandoned");
  add(`${REHEARSAL_ID}1`, "closed");
  add("s-kept", "closed");
  await index.keepStarts({ session: "s-kept", headHash: "s-kept-end", body: "{}" });
  const keeping = await StartsKeeping.begin({ ...needs, timers: hand });
  await hand.pass(100);
  expect(asked).toHaveLength(1);
  await hand.pass(MINUTE);
  expect([...asked].sort()).toEqual(["s-1", "s-3"]);
  add("s-2", "closed");
  await hand.pass(MINUTE + 100);
  expect(asked.slice(2)).toEqual(["s-2"]);
  // Another server was first.
  add("s-4", "closed");
  await index.keepStarts({ session: "s-4", headHash: "s-4-end", body: "{}" });
  await hand.pass(2 * MINUTE);
  expect(asked).toHaveLength(3);
  // One that went on after its end.
  add("s-4", "closed", "s-4-later");
  await hand.pass(2 * MINUTE);
  expect(asked.slice(3)).toEqual(["s-4"]);
  await keeping.close();
  add("s-5", "closed");
  await hand.pass(2 * MINUTE);
  expect([asked.length, hand.waiting]).toEqual([4, 0]);
});

it("[HIS-43] goes on with the others where a session cannot be read, and says so", async () => {
  const { add, asked, told, needs, hand } = house();
  add("s-1", "closed");
  add("s-damaged", "closed");
  add("s-3", "closed");
  const keeping = await StartsKeeping.begin({ ...needs, timers: hand });
  await hand.pass(2 * MINUTE);
  expect([...asked].sort()).toEqual(["s-1", "s-3", "s-damaged"]);
  expect(told).toHaveLength(1);
  await keeping.close();
});

it("[HIS-43] tries again after a minute where the store does not answer", async () => {
  const { add, asked, told, needs, hand } = house();
  add("s-1", "closed");
  let fails = true;
  const moved = async (since: string | null) => {
    if (!fails) return needs.store.moved(since);
    fails = false;
    throw new Error("no answer");
  };
  const keeping = await StartsKeeping.begin({ ...needs, store: { ...needs.store, moved }, timers: hand });
  await hand.pass(MINUTE + 200);
  expect([asked, told.length]).toEqual([["s-1"], 1]);
  await keeping.close();
});
