import { describe, expect, it } from "vitest";
import { aircraftSearchOf } from "../build.ts";
import { AIRCRAFT_MUTANTS } from "./mutants.ts";
import { ROOTS } from "./ramp.ts";

/** Enough for each mutant to be found with room to spare. */
const STATES = 600;

describe("searching an aircraft with several sessions", async () => {
  const { searchAircraft } = await aircraftSearchOf();

  it.each(ROOTS)("[PRF-1] no step found from %s breaks an invariant of what stands", (root) => {
    const found = searchAircraft({ root, states: STATES });
    expect(found.violation).toBeNull();
    expect(found.exhausted || found.states === STATES).toBe(true);
  });
});

describe("searching an aircraft with one rule broken", () => {
  it.each(AIRCRAFT_MUTANTS.map((mutant) => [mutant.name, mutant] as const))(
    "[PRF-2] finds that %s",
    async (_name, mutant) => {
      const { searchAircraft } = await aircraftSearchOf(mutant);
      const { violation } = searchAircraft({ root: mutant.root, states: STATES });
      expect(violation?.invariant).toBe(mutant.expect);
    },
  );
});
