import type { Mutant } from "../mutants.ts";
import type { Root } from "./ramp.ts";

/** A rule of what stands at an aircraft broken on purpose, and the invariant that must be found broken. */
export interface AircraftMutant extends Pick<Mutant, "name" | "file" | "find" | "replace" | "expect"> {
  root: Root;
}

export const AIRCRAFT_MUTANTS: readonly AircraftMutant[] = [
  {
    name: "a hold is kept from the record",
    file: "shared/aircraft/contribution.ts",
    find: 'isForeign(id) ? [] : [{ is: "hold"',
    replace: 'id > 0 ? [] : [{ is: "hold"',
    expect: "STN-2",
    root: "beside",
  },
  {
    name: "a stop that was ended elsewhere goes on standing",
    file: "shared/aircraft/know.ts",
    find: "holds: state.holds.filter((h) => !goes(h.id)),",
    replace: "holds: state.holds,",
    expect: "STN-2",
    root: "beside",
  },
  {
    name: "news brings back what the session has ended",
    file: "shared/aircraft/know.ts",
    find: "const over = endedHere(before);",
    replace: "const over: number[] = [];",
    expect: "STN-10",
    root: "beside",
  },
  {
    name: "a session's end takes its stops with it",
    file: "shared/aircraft/evolve.ts",
    find: "return now ? [{ ...i, item: withLater",
    replace: "return now && !over ? [{ ...i, item: withLater",
    expect: "STN-1",
    root: "beside",
  },
  {
    name: "a new session is not told of an engine left turning",
    file: "shared/aircraft/know.ts",
    find: "isOfPropeller(item) ? [{ no, engine: item.engine }] : []",
    replace: "isOfPropeller(item) ? [] : []",
    expect: "STN-7",
    root: "closed",
  },
  {
    name: "a propeller left turning bars nothing",
    file: "shared/conditions/propellers.ts",
    find: "if (turning.length === 0)",
    replace: "if (turning.length >= 0)",
    expect: "STN-7",
    root: "closed",
  },
  {
    name: "an engine stopped in a return and not seen still is kept from the record",
    file: "shared/aircraft/contribution.ts",
    find: ".filter((e) => e.unseen !== undefined)",
    replace: ".filter((e) => e.unseen === undefined && false)",
    expect: "STN-7",
    root: "stopped",
  },
  {
    name: "hands left by another session do not keep others away",
    file: "shared/leaves/fault.ts",
    find: "state.handling ?? state.standing?.hands[0]",
    replace: "state.handling",
    expect: "STN-6",
    root: "hands",
  },
];
