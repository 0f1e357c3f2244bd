import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { PAPER, PaperProcesses } from "../../server/print/paper-process.ts";
import { printJob } from "../../server/print/sheet-job.ts";
import { HOLD, type LiveServer, liveServer, panelOf } from "../live/panel.ts";
import { prepareServer } from "../live/server-process.ts";
import { bearer, planned, signIn } from "./test-server.ts";

describe("the process that prints", () => {
  let server: LiveServer;
  beforeAll(prepareServer, 240_000);
  afterEach(() => server.close());
  const open = async (limits: Partial<typeof PAPER> = {}) => {
    server = await liveServer({ printer: new PaperProcesses({ ...PAPER, ...limits }) });
    const token = await signIn(server.app, "di");
    const { id } = await planned(server.app, token);
    const take = (sheet: string) =>
      server.app.inject({ url: `/api/sessions/${id}/${sheet}.pdf`, headers: bearer(token) });
    return { id, take };
  };

  it("[PRN-15] [PRN-2] gives the same bytes as printing here would", async () => {
    const { id, take } = await open();
    expect((await take("brief")).rawPayload.subarray(0, 5).toString()).toBe("%PDF-");
    const { store, names } = server.services;
    const stored = await store.read(id, 0, 100);
    async function* lines() {
      yield JSON.stringify({
        sheet: "record",
        now: 1,
        headHash: stored.at(-1)?.hash,
        language: "es",
        form: "short",
      });
      for (const { body } of stored) yield names.reveal(body);
    }
    const here = await printJob(lines());
    expect(here.equals(await new PaperProcesses().print(lines()))).toBe(true);
  });

  it.each<[string, Partial<typeof PAPER>]>([
    ["runs out of memory", { memoryMb: 8 }],
    ["takes too long", { ms: 20 }],
    ["writes too much", { bytes: 1_000 }],
  ])(
    "[PRN-15] that %s is answered as a sheet that could not be made; a hold goes through beside it",
    async (_what, limits) => {
      const { id, take } = await open(limits);
      const ada = await panelOf(server, "ada");
      const [record, hold] = await Promise.all([take("record"), ada.command(id, HOLD)]);
      expect(record.statusCode).toBe(503);
      expect(record.json().detail).toBe("The sheet could not be made: ask again, or export the record");
      expect(hold).toMatchObject({ status: "accepted" });
      ada.close();
    },
  );

  it("[PRN-15] reads none of the server's settings", async () => {
    const { take } = await open();
    vi.stubEnv("NODE_OPTIONS", "--no-such-option");
    expect((await take("record")).statusCode).toBe(200);
  });
});
