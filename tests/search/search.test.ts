import { describe, expect, it } from "vitest";
import { broken, searchOf } from "./build.ts";
import { MUTANTS } from "./mutants.ts";
import { SCOPES } from "./scopes.ts";

/** Enough to leave every root by every move several times over; `run.ts` goes as far as there is time for. */
const STATES = 2_000;
/** Of a loaded machine: alone it needs a second or two. */
const PATIENCE_MS = 120_000;

describe("searching the core", async () => {
  const { search } = await searchOf();

  it.each(SCOPES.map((scope) => scope.name))(
    "[PRF-1] no state found in scope %s breaks an invariant",
    (scope) => {
      const found = search({ scope, states: STATES });
      expect(found.violation?.chart).toBeUndefined();
      expect(found.exhausted || found.states === STATES).toBe(true);
    },
    PATIENCE_MS,
  );
});

describe("searching a core with one rule broken", () => {
  it.each(MUTANTS.map((mutant) => [mutant.name, mutant] as const))(
    "[PRF-2] finds that %s",
    async (_name, mutant) => {
      const { search } = await searchOf(mutant);
      const { scope, roots } = mutant;
      const { violation } = search({ scope, roots, states: 20_000 });
      expect(violation?.invariant).toBe(mutant.expect);
      expect(violation?.chart).toContain(`Breaks ${mutant.expect}`);
    },
    PATIENCE_MS,
  );

  it("[PRF-2] a mutant whose text is not there, or there twice, is no mutant", () => {
    const [mutant] = MUTANTS;
    if (!mutant) throw new Error("there are mutants");
    expect(() => broken({ ...mutant, find: "no such text" })).toThrow("stands 0 times");
    expect(() => broken({ ...mutant, find: "refuse" })).toThrow(/stands \d+ times/);
  });
});
