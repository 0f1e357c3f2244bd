import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { TAIL } from "../../server/sessions/replay.ts";
import { planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "./panel.ts";

let server: LiveServer;
let session: string;
let panels: TestPanel[];

beforeEach(async () => {
  server = await liveServer();
  session = (await planned(server.app, await signIn(server.app, "fay"))).id;
  panels = [];
});
afterEach(async () => {
  for (const panel of panels) panel.close();
  await server.close();
});

const panel = async (handle: string, device?: string) => {
  const one = await panelOf(server, handle, device);
  panels.push(one);
  return one;
};
const headNow = async () => (await server.services.sessions.get(session)).state.seq;

describe("watching", () => {
  it("[LIV-3] begins with the whole state for a panel that has nothing", async () => {
    const one = await panel("ada");
    const sync = await one.watch(session);
    expect(sync).toMatchObject({ session, head: 1, serverNow: server.hand.clock.now() });
    expect(one.state).toEqual((await server.services.sessions.get(session)).state);
  });

  it("[LIV-3] brings the events after the last number that a panel has, and nothing else", async () => {
    const one = await panel("ada");
    for (let i = 0; i < 4; i += 1) await one.command(session, HOLD);
    const head = await headNow();
    const sync = await one.watch(session, 2);
    expect("events" in sync && sync.events.map((e) => e.seq)).toEqual(
      Array.from({ length: head - 2 }, (_, i) => i + 3),
    );
    expect(await one.watch(session, head)).toMatchObject({ head, events: [] });
  });

  it("[LIV-3] brings the whole state to a panel that is too far behind, or that has more than the server", async () => {
    const one = await panel("ada");
    // With a pause between them, because a flood of stops is not recorded.
    for (; (await headNow()) <= TAIL + 2; await server.hand.pass(1_000))
      await Promise.all(Array.from({ length: 20 }, () => one.command(session, HOLD)));
    const head = await headNow();
    expect(await one.watch(session, head - TAIL)).toHaveProperty("events");
    for (const since of [1, head - TAIL - 1, head + 1])
      expect(await one.watch(session, since), String(since)).toHaveProperty("state");
  });

  it("[LIV-3] continues with each event once and in order until it ends", async () => {
    const [one, two] = [await panel("ada"), await panel("bo")];
    await one.watch(session);
    await two.command(session, HOLD);
    const first = await headNow();
    await one.until(() => one.state?.seq === first);
    one.socket.emit("unwatch", session as never);
    await one.exchange();
    await two.command(session, HOLD);
    await one.exchange();
    expect(one.heard.map((e) => e.seq)).toEqual(Array.from({ length: first - 1 }, (_, i) => i + 2));
  });

  it("[LIV-3] says that there is no such session", async () => {
    const one = await panel("ada");
    expect(await one.ask("watch", { session: "none", since: 0 })).toMatchObject({
      status: "error",
      error: "noSuchSession",
    });
  });

  it.each([
    ["nothing", undefined],
    ["a session that is no id", { session: "../x", since: 0 }],
    ["a number below none", { session: "x", since: -1 }],
    ["half a number", { session: "x", since: 1.5 }],
    ["a field nobody knows", { session: "x", since: 0, all: true }],
  ])("[LIV-6] refuses %s", async (_what, message) => {
    const one = await panel("ada");
    expect(await one.ask("watch", message)).toMatchObject({ status: "error", error: "malformed" });
  });

  it("[LIV-3] misses no event and doubles none while many commands arrive", async () => {
    const writers = await Promise.all(["ada", "bo", "cy", "di"].map((who) => panel(who)));
    const readers = await Promise.all(Array.from({ length: 6 }, (_, n) => panel("ed", `reader-${n}`)));
    // Each reader stops and starts again during the writing, from the number it has.
    const reading = readers.map(async (reader, n) => {
      await reader.watch(session);
      for (let round = 0; round < 8; round += 1) {
        if ((round + n) % 3 === 0) reader.socket.emit("unwatch", session as never);
        await reader.watch(session, reader.state?.seq ?? 0);
      }
    });
    const writing = writers.map(async (writer) => {
      for (let i = 0; i < 25; i += 1) await writer.command(session, HOLD);
    });
    await Promise.all([...reading, ...writing]);
    const { state } = await server.services.sessions.get(session);
    expect(state.holds).toHaveLength(100);
    for (const reader of readers) {
      await reader.until(() => reader.state?.seq === state.seq);
      expect(reader.faults).toEqual([]);
      expect(reader.state).toEqual(state);
    }
  });
});
