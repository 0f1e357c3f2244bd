import { expect, it } from "vitest";
import { Currencies } from "../../server/house/currencies.ts";
import type { EventStore } from "../../server/store/events.ts";
import { MemoryDirectory } from "../../server/store/memory-directory.ts";
import { CREW, exported, given } from "../spec/given.ts";

/** Returns a store of closed sessions, and of an abandoned one that must not be read, with the lines of a whole start. */
function storeOf(sessions: readonly string[], broken: string | null): EventStore {
  const story = given().manned().upTo("closed");
  const { lines } = exported(story.log);
  const row = (id: string, stage: string) => ({ id, stage, headSeq: lines.length });
  const rows = [row("gone", "abandoned"), ...sessions.map((id) => row(id, "closed"))];
  return {
    sessions: async () => rows,
    read: async (id: string, since: number, limit: number) => {
      if (id === "gone" || id === broken) throw new Error(`${id} cannot be read`);
      return lines.slice(since, since + limit).map((body, i) => ({ seq: since + i + 1, body }));
    },
  } as unknown as EventStore;
}

it("[CUR-3] a database that knows no start yet notes those of every closed session, all of them or none", async () => {
  const directory = new MemoryDirectory();
  const clock = { now: () => 0 };
  const cut = new Currencies(directory, storeOf(["first", "second"], "second"), clock, {
    finished: async () => [],
  });
  await expect(cut.catchUp()).rejects.toThrow("second cannot be read");
  expect(await directory.currencies.lastStarts()).toEqual([]);

  await new Currencies(directory, storeOf(["first", "second"], null), clock, {
    finished: async () => [],
  }).catchUp();
  const starts = await directory.currencies.lastStarts();
  expect(starts.map((s) => s.personId).sort()).toEqual(
    Object.values(CREW)
      .map((p) => p.id)
      .sort(),
  );
  // Known starts are not read again.
  await new Currencies(directory, storeOf(["first"], "first"), clock, { finished: async () => [] }).catchUp();
  expect(await directory.currencies.lastStarts()).toEqual(starts);
});
