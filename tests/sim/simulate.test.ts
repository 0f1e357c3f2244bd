import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { commandFor } from "../../shared/replica/outbox.ts";
import { CREW, given } from "../spec/given.ts";
import { Chance } from "./chance.ts";
import { SimServer } from "./server.ts";
import { simulate, simulateMany } from "./simulate.ts";

const pinned = JSON.parse(readFileSync(new URL("pinned.json", import.meta.url), "utf8")) as {
  seeds: { seed: number; once: string }[];
};

describe("sessions over bad sockets", () => {
  it("[RPL-7, RPL-5, RPL-6, WIR-6, HLD-2] every panel ends with the server's bytes; nothing acts twice, is lost or sent stale", () => {
    const { failed, runs, resent } = simulateMany(1, 100);
    expect(failed).toBeNull();
    expect(runs).toBe(100);
    // The network was bad enough to matter.
    expect(resent).toBeGreaterThan(500);
  }, 90_000);

  it.each(pinned.seeds)("[RPL-7] seed $seed, which once found: $once", ({ seed }) => {
    expect(simulate(seed).fault).toBeNull();
  });

  it("[RPL-7] the same seed is the same run", () => {
    expect(simulate(7)).toEqual(simulate(7));
    const [a, b] = [new Chance(1), new Chance(2)];
    expect([a.next(), a.next()]).not.toEqual([b.next(), b.next()]);
  });
});

describe("the simulated server's promise", () => {
  it("[WIR-6] the same id acts once; with other content it is refused", () => {
    const { log, state, now } = given().manned();
    const server = new SimServer(log, state, () => {});
    const base = { id: "00000000-0000-4000-8000-000000000999", session: state.id, clientAt: 0 };
    const hold = commandFor({ ...base, action: { type: "send", kind: "hold", channel: "panel" } }, now);
    const fire = commandFor({ ...base, action: { type: "send", kind: "fire", channel: "panel" } }, now);
    expect(server.command(hold, CREW.cockpit, now)).toMatchObject({ status: "accepted" });
    expect(server.command({ ...hold, clientAt: 5 }, CREW.cockpit, now)).toMatchObject({
      status: "duplicate",
    });
    expect(server.command(fire, CREW.cockpit, now)).toMatchObject({ refusal: { reason: "idReused" } });
    expect(server.state.holds).toHaveLength(1);
  });
});
