import { describe, expect, it } from "vitest";
import { type Campaign, campaign } from "./campaign.ts";
import { judged } from "./judged.ts";

/** Sessions of each aircraft, by seed. `npm run soak -- --adversary` plays many more. */
const SEEDS: readonly [seed: number, sessions: number][] = [
  [4, 4],
  [8, 4],
  [16, 4],
];

describe("an adversary at every panel", () => {
  it("[PRF-3] breaks no safety rule in twelve sessions of three aircraft, starts and returns, by the judgement of the program in Python", async () => {
    const played: Campaign[] = [];
    for (const [seed, sessions] of SEEDS) played.push(await campaign(seed, sessions));
    const judgements = judged(played.map((c) => c.files));
    const found = played.map(({ seed, faults }, i) => ({
      seed,
      faults: [...faults, ...(judgements[i]?.findings ?? [])],
    }));
    expect(found).toEqual(SEEDS.map(([seed]) => ({ seed, faults: [] })));
    expect(judgements.map((j) => j.sessions)).toEqual(SEEDS.map(([, sessions]) => sessions));
    // It got as far as turning engines and stopping them again, was refused much, and the server died under it.
    const kinds = new Set(played.flatMap((c) => [...c.kinds.keys()]));
    for (const kind of ["clearToStart", "cranking", "started", "hold", "release", "propellerFree"])
      expect(kinds).toContain(kind);
    for (const kind of ["onStand", "coolDown", "shutDown", "propellerStill", "switchesOff"])
      expect(kinds).toContain(kind);
    const sum = (of: (c: Campaign) => number) => played.reduce((n, c) => n + of(c), 0);
    expect(sum((c) => c.stopped)).toBeGreaterThan(1);
    expect(sum((c) => c.refused)).toBeGreaterThan(100);
    expect(sum((c) => c.kills)).toBeGreaterThan(0);
  });
});
