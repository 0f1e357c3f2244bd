import { describe, expect, it } from "vitest";
import { act } from "../../shared/session/step.ts";
import { broken, searchOf } from "./build.ts";
import { PEOPLE, START } from "./model.ts";
import { MUTANTS } from "./mutants.ts";
import { MARK, send, stateAt } from "./roots.ts";
import { SCOPES } from "./scopes.ts";

/** Enough to leave every root by every move several times; `run.ts` goes as far as time allows. */
const STATES = 500;
/** For a loaded machine: alone, the longest search needs a few seconds. */
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

describe("what the search once found in the core", () => {
  const { cockpit, supervisor } = PEOPLE;

  it("[PRF-1] a clock set back unnoticed: the action that notices it cannot use an earlier clearance", () => {
    const step = act(stateAt("cleared"), send("cranking", { engine: 1 }), cockpit, MARK, START - 3000);
    // It turns all the same: the report is kept as an engine seen turning, never as a crank on that clearance.
    const facts = step.events.map((e) => e.fact);
    expect(facts.slice(0, 2).map((f) => f.type)).toEqual(["clockStepped", "clearanceVoid"]);
    expect(facts.find((f) => f.type === "sent")).toMatchObject({ kind: "turning" });
  });

  it("[PRF-1] a server that reads its clock late: nobody can complete an override whose time is over", () => {
    const override = { type: "override", condition: "brakesSet", engine: 1, reason: "known" } as const;
    const asked = act(stateAt("prepared"), override, cockpit, MARK, START).state;
    const late = act(asked, override, supervisor, MARK, START + 1000);
    expect(late.events.map((e) => e.fact.type)).toEqual(["overrideEnded", "overrideAsked"]);
    expect(late.state.overrides.map((o) => o.second)).toEqual([null]);
  });
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

  it("[PRF-2] a mutant whose text is missing or occurs twice throws", () => {
    const [mutant] = MUTANTS;
    if (!mutant) throw new Error("there are mutants");
    expect(() => broken({ ...mutant, find: "no such text" })).toThrow("stands 0 times");
    expect(() => broken({ ...mutant, find: "refuse" })).toThrow(/stands \d+ times/);
  });
});
