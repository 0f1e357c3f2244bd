import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  type Append,
  ConcurrencyError,
  type EventStore,
  type SessionRow,
  type StoredEvent,
  StoreFailure,
} from "../../server/store/events.ts";

export const storedEvent = (seq: number, over: Partial<StoredEvent> = {}): StoredEvent => ({
  seq,
  at: 1_000 + seq,
  type: "sent",
  command: `c${seq}`,
  body: `{"seq":${seq}}`,
  hash: `h${seq}`,
  ...over,
});

export const rowAt = (id: string, headSeq: number, over: Partial<SessionRow> = {}): SessionRow => ({
  id,
  code: `CODE-${id}`,
  planCommand: `plan-${id}`,
  aircraft: "CH-TST",
  typeId: "four",
  typeVersion: 1,
  typeName: "Four",
  place: "North ramp",
  stage: "plan",
  needs: 0,
  createdAt: 1_000,
  closedAt: null,
  headSeq,
  headHash: `h${headSeq}`,
  headAt: 1_000 + headSeq,
  ...over,
});

/** Returns an append of `count` events after `expected`. */
export const append = (id: string, expected: number, count = 1, over: Partial<SessionRow> = {}): Append => ({
  expected,
  events: Array.from({ length: count }, (_, i) => storedEvent(expected + 1 + i)),
  row: rowAt(id, expected + count, over),
});

/** Tests what every event store must do. Each kind of store runs it. */
export function eventStoreContract(
  name: string,
  open: () => Promise<{ store: EventStore; done(): void }>,
): void {
  describe(name, () => {
    let store: EventStore;
    let done: () => void;

    beforeEach(async () => {
      ({ store, done } = await open());
    });
    afterEach(async () => {
      await store.close();
      done();
    });

    const seqs = async (id: string, since = 0, limit = 100) =>
      (await store.read(id, since, limit)).map((e) => e.seq);

    it("[STO-1] gives back the very events it was given, in order", async () => {
      await store.append(append("a", 0, 2));
      await store.append({
        expected: 2,
        events: [storedEvent(3, { command: null, body: '{"text":"ø\\u2028"}', type: "late" })],
        row: rowAt("a", 3),
      });
      expect(await store.read("a", 0, 10)).toEqual([
        storedEvent(1),
        storedEvent(2),
        storedEvent(3, { command: null, body: '{"text":"ø\\u2028"}', type: "late" }),
      ]);
    });

    it("[STO-1] reads a part: above a number, no more than asked", async () => {
      await store.append(append("a", 0, 5));
      expect(await seqs("a", 2, 2)).toEqual([3, 4]);
      expect(await seqs("a", 5)).toEqual([]);
      expect(await seqs("nobody")).toEqual([]);
    });

    it.each([
      ["a number already taken", 1],
      ["a number too far", 3],
      ["a second beginning", 0],
    ])("[STO-1] refuses %s and keeps nothing of it", async (_what, expected) => {
      await store.append(append("a", 0, 2));
      const second = append("a", expected, 1, { code: "OTHER", planCommand: "other", stage: "brief" });
      await expect(store.append(second)).rejects.toBeInstanceOf(ConcurrencyError);
      expect(await seqs("a")).toEqual([1, 2]);
      expect(await store.session("a")).toEqual(rowAt("a", 2));
    });

    it("[STO-1] refuses to go on in a session that never began", async () => {
      await expect(store.append(append("a", 4))).rejects.toBeInstanceOf(ConcurrencyError);
      expect(await store.session("a")).toBeNull();
    });

    it("[STO-1] lets exactly one of fifty racing appends take a number", async () => {
      await store.append(append("a", 0));
      const results = await Promise.allSettled(
        Array.from({ length: 50 }, () => store.append(append("a", 1))),
      );
      expect(results.filter((r) => r.status === "fulfilled")).toHaveLength(1);
      for (const r of results) if (r.status === "rejected") expect(r.reason).toBeInstanceOf(ConcurrencyError);
      expect(await seqs("a")).toEqual([1, 2]);
    });

    it("[HIS-39] tells which heads moved since a mark, and no others", async () => {
      for (const id of ["a", "b", "c"]) await store.append(append(id, 0));
      const first = await store.moved(null);
      expect(first.all).toBe(true);
      expect(first.heads.map(({ id }) => id).sort()).toEqual(["a", "b", "c"]);
      const moved = async (mark: string) => {
        const { all, heads, gone } = await store.moved(mark);
        return [all, heads.map(({ id, headSeq }) => `${id} ${headSeq}`).sort(), gone];
      };
      const { mark } = await store.moved(first.mark);
      expect(await moved(mark)).toEqual([false, [], []]);
      await store.append(append("b", 1, 2));
      await store.append(append("d", 0));
      await store.append(append("b", 3));
      expect(await moved(mark)).toEqual([false, ["b 4", "d 1"], []]);
      const later = await store.moved(mark);
      expect(later.heads.find(({ id }) => id === "d")).toEqual({
        ...{ id: "d", headSeq: 1, aircraft: "CH-TST", stage: "plan" },
      });
      expect(await moved((await store.moved(later.mark)).mark)).toEqual([false, [], []]);
      await expect(store.append(append("a", 4))).rejects.toBeInstanceOf(ConcurrencyError);
      expect(await moved(later.mark)).toEqual([false, [], []]);
      expect((await store.moved(null)).heads).toHaveLength(4);
    });

    it("[HIS-40] gives the newest sessions of one aircraft", async () => {
      const of = (id: string, aircraft: string, createdAt: number) =>
        store.append(append(id, 0, 1, { aircraft, createdAt }));
      await of("a", "CH-ONE", 5);
      await of("b", "CH-TWO", 9);
      await of("c", "CH-ONE", 7);
      await of("d", "CH-ONE", 7);
      const ids = async (aircraft: string, limit: number) =>
        (await store.sessionsOf(aircraft, limit)).map(({ id }) => id);
      expect(await ids("CH-ONE", 10)).toEqual(["d", "c", "a"]);
      expect(await ids("CH-ONE", 2)).toEqual(["d", "c"]);
      expect(await ids("CH-NIL", 2)).toEqual([]);
    });

    it("[STO-3] commits many sessions' appends side by side; one conflict fails no other", async () => {
      await Promise.all(["a", "b", "c"].map((id) => store.append(append(id, 0))));
      const results = await Promise.allSettled([
        store.append(append("a", 1, 3)),
        store.append(append("b", 7)),
        store.append(append("c", 1, 2)),
      ]);
      expect(results.map((r) => r.status)).toEqual(["fulfilled", "rejected", "fulfilled"]);
      expect([await seqs("a"), await seqs("b"), await seqs("c")]).toEqual([[1, 2, 3, 4], [1], [1, 2, 3]]);
    });

    it("[STO-2] keeps the session's row in step with its events", async () => {
      await store.append(append("a", 0));
      await store.append(append("a", 1, 1, { stage: "closed", closedAt: 1_002, needs: 3 }));
      expect(await store.session("a")).toEqual(rowAt("a", 2, { stage: "closed", closedAt: 1_002, needs: 3 }));
      expect(await store.session("b")).toBeNull();
    });

    it("[CHP-4] keeps checkpoints by size, the first of two for one size, and each session's apart", async () => {
      const checkpoint = (session: string, size: number, note: string) =>
        store.addCheckpoint({ session, size, at: 1, note, publicKey: "k" });
      await checkpoint("a", 9, "nine");
      await checkpoint("a", 2, "two");
      await checkpoint("a", 9, "other");
      await checkpoint("b", 1, "one");
      expect((await store.checkpoints("a")).map((c) => c.note)).toEqual(["two", "nine"]);
      expect(await store.checkpoints("b")).toEqual([
        { session: "b", size: 1, at: 1, note: "one", publicKey: "k" },
      ]);
      expect(await store.checkpoints("c")).toEqual([]);
    });

    it("[OPS-9] removes a session that is over, with all that is its own, and keeps the record of that", async () => {
      const removal = (id: string, at: number) => ({ id, at, note: `${id} is gone`, publicKey: "k" });
      await store.append(append("a", 0, 3, { closedAt: 5 }));
      await store.append(append("b", 0, 2));
      for (const id of ["a", "b"])
        await store.addCheckpoint({ session: id, size: 2, at: 1, note: "n", publicKey: "k" });
      await expect(store.remove("b", removal("b", 1))).rejects.toBeInstanceOf(StoreFailure);
      await expect(store.remove("c", removal("c", 1))).rejects.toBeInstanceOf(StoreFailure);
      await store.addRemoval(removal("p", 2));
      await store.remove("a", removal("a", 3));
      expect([await store.session("a"), await store.read("a", 0, 9), await store.checkpoints("a")]).toEqual([
        null,
        [],
        [],
      ]);
      expect(await store.session("b")).toEqual(rowAt("b", 2));
      expect([await seqs("b"), (await store.checkpoints("b")).length]).toEqual([[1, 2], 1]);
      expect(await store.removals()).toEqual([removal("p", 2), removal("a", 3)]);
      await store.append(append("b", 2));
      expect(await seqs("b")).toEqual([1, 2, 3]);
    });

    it("[STO-2] finds a session by its code and by the command that planned it", async () => {
      await store.append(append("a", 0));
      expect((await store.sessionByCode("CODE-a"))?.id).toBe("a");
      expect((await store.sessionByPlan("plan-a"))?.id).toBe("a");
      expect([await store.sessionByCode("CODE-b"), await store.sessionByPlan("plan-b")]).toEqual([
        null,
        null,
      ]);
    });

    it.each([
      ["code", { code: "CODE-a" }],
      ["plan", { planCommand: "plan-a" }],
    ])("[STO-2] lets no two sessions have one %s", async (_what, over) => {
      await store.append(append("a", 0));
      await expect(store.append(append("b", 0, 1, over))).rejects.toBeInstanceOf(ConcurrencyError);
      expect([await store.session("b"), await seqs("b")]).toEqual([null, []]);
    });

    it("[RHS-5] lists rehearsals apart from all others, newest first", async () => {
      await store.append(append("rehearsal-a", 0, 1, { createdAt: 5 }));
      await store.append(append("b", 0, 1, { createdAt: 9 }));
      await store.append(append("rehearsal-c", 0, 1, { createdAt: 7, closedAt: 8 }));
      const ids = (rows: { id: string }[]) => rows.map(({ id }) => id);
      expect(ids(await store.sessions(10))).toEqual(["b"]);
      expect(ids(await store.rehearsals(10))).toEqual(["rehearsal-c", "rehearsal-a"]);
      expect(ids(await store.rehearsals(1))).toEqual(["rehearsal-c"]);
      expect(ids(await store.rehearsals(9, { createdAt: 7, id: "rehearsal-c" }))).toEqual(["rehearsal-a"]);
      expect(ids(await store.openSessions()).sort()).toEqual(["b", "rehearsal-a"]);
    });

    it("[STO-2] lists the newest first, and apart from them what is not over", async () => {
      await store.append(append("a", 0, 1, { createdAt: 5 }));
      await store.append(append("b", 0, 1, { createdAt: 9, closedAt: 10, headAt: 77 }));
      await store.append(append("c", 0, 1, { createdAt: 7 }));
      expect((await store.sessions(2)).map((s) => s.id)).toEqual(["b", "c"]);
      await store.append(append("d", 0, 1, { createdAt: 7, closedAt: 10 }));
      const following = async (createdAt: number, id: string) =>
        (await store.sessions(2, { createdAt, id })).map((s) => s.id);
      expect(await following(9, "b")).toEqual(["d", "c"]);
      expect(await following(7, "d")).toEqual(["c", "a"]);
      expect([await following(7, "c"), await following(5, "a")]).toEqual([["a"], []]);
      expect((await store.openSessions()).map((s) => s.id).sort()).toEqual(["a", "c"]);
      await store.append(append("c", 1, 2));
      const heads = (await store.openHeads()).sort((one, two) => (one.id < two.id ? -1 : 1));
      expect(heads).toEqual([
        { id: "a", headSeq: 1 },
        { id: "c", headSeq: 3 },
      ]);
    });

    it("[STO-2] knows the newest session of an aircraft", async () => {
      await store.append(append("a", 0, 1, { createdAt: 5, aircraft: "CH-AAA" }));
      await store.append(append("b", 0, 1, { createdAt: 9, aircraft: "CH-AAA" }));
      await store.append(append("c", 0, 1, { createdAt: 11, aircraft: "CH-BBB" }));
      expect((await store.lastSessionOf("CH-AAA"))?.id).toBe("b");
      expect(await store.lastSessionOf("CH-CCC")).toBeNull();
    });

    it("[STO-2] knows the time of the newest event of all", async () => {
      expect(await store.newestAt()).toBe(0);
      await store.append(append("a", 0, 1, { headAt: 4_000_000_000_000 }));
      await store.append(append("b", 0, 1, { headAt: 3 }));
      expect(await store.newestAt()).toBe(4_000_000_000_000);
    });

    it("[STO-2] can be asked whether it still writes", async () => {
      await store.probe();
      await store.probe();
      expect(await store.sessions(10)).toEqual([]);
    });
  });
}
