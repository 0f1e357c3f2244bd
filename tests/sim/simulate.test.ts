import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { canonical } from "../../shared/evidence/canonical.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { commandFor } from "../../shared/replica/outbox.ts";
import { CREW, given } from "../spec/given.ts";
import { Chance } from "./chance.ts";
import { simulateMany } from "./many.ts";
import { sameBytes } from "./sameBytes.ts";
import { SimServer } from "./server.ts";
import { simulate } from "./simulate.ts";

const pinned = JSON.parse(readFileSync(new URL("pinned.json", import.meta.url), "utf8")) as {
  seeds: { seed: number; once: string }[];
};

const BATCH = 20;
const BATCHES = Array.from({ length: 10 }, (_, i) => 1 + i * BATCH);
/** For a loaded machine: alone, a batch needs two seconds. */
const PATIENCE_MS = 120_000;

describe("sessions over bad sockets", () => {
  it.each(BATCHES)(
    "[RPL-7, RPL-5, RPL-6, WIR-6, HLD-2, STO-7, PRF-1] from seed %i on every panel ends with the server's bytes; nothing acts twice, is lost or sent stale, and no step breaks an invariant",
    async (first) => {
      const { failed, runs, resent, upsets } = await simulateMany(first, BATCH);
      expect(failed).toEqual([]);
      expect(runs).toBe(BATCH);
      // The network was bad enough to matter, and the server was disturbed.
      expect(resent).toBeGreaterThan(BATCH);
      expect(upsets).toBeGreaterThan(BATCH);
    },
    PATIENCE_MS,
  );

  it.each(pinned.seeds)("[RPL-7] seed $seed, which once found: $once", async ({ seed }) => {
    expect((await simulate(seed)).fault).toBeNull();
  });

  it.each([7, 8])("[RPL-7] the same seed is the same run: %i", async (seed) => {
    expect(await simulate(seed)).toEqual(await simulate(seed));
  });

  it("[RPL-7] other seeds are other runs", () => {
    const [a, b] = [new Chance(1), new Chance(2)];
    expect([a.next(), a.next()]).not.toEqual([b.next(), b.next()]);
  });
});

describe("the comparison of panels with the server", () => {
  const { state } = given().manned();
  const copy = () => structuredClone(state);
  const [pilot, engine] = [state.posts.cockpit, state.engines[0]];
  const others: [what: string, value: unknown][] = [
    ["the same", copy()],
    ["its members in another order", Object.fromEntries(Object.entries(copy()).reverse())],
    ["a member that is undefined", { ...copy(), abandon: undefined }],
    ["a member more", { ...copy(), abandon: null }],
    ["a member less", { ...copy(), engines: undefined }],
    ["a figure", { ...copy(), at: state.at + 1 }],
    ["a word deep inside", { ...copy(), posts: { ...state.posts, cockpit: { ...pilot, name: "x" } } }],
    ["a member less deep inside", { ...copy(), posts: { ...state.posts, cockpit: { id: pilot?.id } } }],
    ["an entry more", { ...copy(), engines: [...state.engines, engine] }],
    ["an entry less", { ...copy(), engines: state.engines.slice(1) }],
    ["a list as an object", { ...copy(), engines: { ...state.engines } }],
    ["an object as a list", { ...copy(), offers: [] }],
    ["nothing at all", null],
  ];

  it.each(others)("[RPL-7] says the same of it as the canonical bytes: %s", (what, value) => {
    expect(sameBytes(value, state)).toBe(canonical(value) === canonical(state));
    expect(sameBytes(value, state)).toBe(others.slice(0, 3).some(([same]) => same === what));
  });
});

describe("the simulated server's promise", () => {
  it("[WIR-6] the same id acts once; with other content it is refused", () => {
    const { log, state, now } = given().manned();
    const server = new SimServer(log, state, () => {});
    const base = { id: "00000000-0000-4000-8000-000000000999", session: state.id, clientAt: 0 };
    const hold = commandFor({ ...base, action: { type: "send", kind: "hold", channel: "panel" } }, now);
    const fire = commandFor({ ...base, action: { type: "send", kind: "fire", channel: "panel" } }, now);
    const answers: CommandResult[] = [];
    for (const command of [hold, { ...hold, clientAt: 5 }, fire])
      server.command(command, CREW.cockpit, now, (answer) => answers.push(answer));
    expect(answers).toMatchObject([
      { status: "accepted" },
      { status: "duplicate" },
      { refusal: { reason: "idReused" } },
    ]);
    expect(server.state.holds).toHaveLength(1);
  });
});
