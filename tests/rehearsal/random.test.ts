import { expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { judged } from "../adversary/judged.ts";
import { randomRun } from "./random.ts";

/** Every one of them is pinned: `npm run soak -- --rehearsals` runs as many more as one likes. */
const SEEDS = Array.from({ length: 16 }, (_, i) => i + 1);

it("[RHS-32] random scripts with random crews: none is stuck, and an independent judge finds no rule broken", () => {
  const runs = SEEDS.map(randomRun);
  expect(runs.filter((r) => r.stuck !== null).map(({ seed, stuck }) => ({ seed, stuck }))).toEqual([]);
  for (const { text, seed } of runs) {
    const { ok, says } = checkFile(text);
    expect(ok, `seed ${seed}: ${says}`).toBe(true);
    expect(says).toContain("REHEARSAL");
  }
  const found = judged(runs.map(({ text }) => [text])).map(({ findings }, i) => ({
    seed: SEEDS[i],
    findings,
  }));
  expect(found.filter(({ findings }) => findings.length > 0)).toEqual([]);
});
