import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { personAt, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { noPseudonyms } from "../../server/evidence/names.ts";
import { readOn } from "../../server/sessions/replay.ts";
import { sharedType } from "../../server/sessions/shared-type.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { stagesOf } from "../../shared/protocol/stages.ts";
import { planned, signIn, type TestServer, testServer } from "../http/test-server.ts";
import { playOut } from "../seed/stage.ts";
import { FOUR } from "../spec/aircraft.ts";
import { sha256 } from "../spec/given.ts";

const EVENTS = 2_000;
const STARTING_STAGES = stagesOf("start");
const KB = 1_024;

/** Raises and releases holds, from each post in turn, until there are `least` events. */
function trouble(stage: Stage, least: number): void {
  for (let i = 0; stage.events.length < least; i += 1) {
    const person = personAt(POSTS[i % POSTS.length] ?? "cockpit");
    stage.now += 1_000;
    stage.do(person, { type: "send", kind: "hold", channel: "panel", note: "somebody walks under engine 3" });
    const ref = stage.state.holds.find((hold) => hold.person === person.id)?.id;
    if (ref === undefined) throw new Error("no hold stands");
    stage.now += 1_000;
    stage.do(person, { type: "send", kind: "release", ref, channel: "panel" });
  }
}

/** Returns a start of four engines to its end, interrupted in every stage. */
function troubledStart(): Stage {
  const type = demo.types.find((t) => t.engines.length === 4);
  if (!type) throw new Error("the demo has a four-engine type");
  const stage = new Stage(type, "groundPower");
  stage.everyoneClaims();
  const script = { seed: 3, pace: 1, cart: "Bal Maiden" };
  for (const [i, until] of STARTING_STAGES.entries()) {
    expect(playOut(stage, script, until)).toBeNull();
    trouble(stage, ((i + 1) * EVENTS) / STARTING_STAGES.length);
  }
  expect(playOut(stage, script)).toBeNull();
  return stage;
}

/** Returns the figures of LIV-14, kilobytes of JSON: state without its type, type, last events, answered commands. */
function budget(): number[] {
  const spec = readFileSync(fileURLToPath(new URL("../../shared/SPEC.md", import.meta.url)), "utf8");
  const line = /^- \*\*LIV-14\*\* .*$/m.exec(spec)?.[0] ?? "";
  return [...line.matchAll(/(\d+) kB/g)].map((match) => Number(match[1]));
}

it("[LIV-14] a session in memory stays within its budget through a four-engine start of 2,000 events", async () => {
  const { events, state } = troubledStart();
  expect(state.stage).toBe("closed");
  expect(events.length).toBeGreaterThanOrEqual(EVENTS);
  let head = genesis(state.id, sha256);
  const sealed = events.map((event) => {
    const { command, digest } = event;
    // As long as the ids of panels (UUID) and the server's digests.
    const long = { command: command?.padEnd(36, "-") ?? null, digest: digest && sha256(digest) };
    const one = seal({ ...event, ...long }, head, sha256);
    head = one.hash;
    return one;
  });
  const read = async (_: string, since: number, limit: number) => sealed.slice(since, since + limit);
  const nothing = { state: null, headHash: genesis(state.id, sha256), answered: new Map(), tail: [] };
  // Exactly what a server keeps of a session that it read from the record.
  const { held, ...more } = await readOn({ read }, state.id, nothing, noPseudonyms);
  expect([Object.keys(held).sort(), Object.keys(more)]).toEqual([
    ["answered", "headHash", "state", "tail"],
    ["events"],
  ]);
  const kb = (value: unknown) => Buffer.byteLength(JSON.stringify(value)) / KB;
  const { type, ...rest } = { ...(held.state as unknown as typeof state) };
  const found = [kb(rest), kb(type), kb(held.tail), kb([...held.answered])];
  const most = budget();
  expect(most).toHaveLength(found.length);
  for (const [i, is] of found.entries()) expect(is, `part ${i}: ${found}`).toBeLessThanOrEqual(most[i] ?? 0);
});

it("[LIV-15] sessions on one version of a type hold it once, planned here or read from the record; others apart", async () => {
  const store = new MemoryEventStore();
  const typesOf = async (server: TestServer, ids: readonly string[]) =>
    Promise.all(ids.map(async (id) => (await server.services.sessions.get(id)).state.type));
  const first = await testServer({ store });
  const token = await signIn(first.app, "fay");
  const ids = [(await planned(first.app, token)).id, (await planned(first.app, token)).id];
  const here = await typesOf(first, ids);
  expect(here[0]).toBe(here[1]);
  await first.close();
  const again = await testServer({ store });
  const read = await typesOf(again, ids);
  expect(read[0]).toBe(read[1]);
  expect(read).toEqual(here);
  await again.close();
  // The type differs although its version number is the same: a record may come from elsewhere.
  const other = { ...FOUR, name: "Another four" };
  expect([sharedType(FOUR), sharedType(other), sharedType(structuredClone(other))]).toEqual([
    FOUR,
    other,
    other,
  ]);
  expect(sharedType(structuredClone(other))).toBe(other);
});
