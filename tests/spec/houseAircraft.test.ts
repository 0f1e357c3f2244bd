import { describe, expect, it } from "vitest";
import { bareAircraft, houseAircraftSchema } from "../../shared/house/aircraft.ts";
import { changesOf } from "../../shared/house/changes.ts";
import { fallenHours, fittedFaults } from "../../shared/house/faults.ts";
import { planBar } from "../../shared/house/planBar.ts";

const BIRD = bareAircraft({ id: "CH-TST", name: "Bird", typeId: "four" });
const place = (n: number, serial: string | null, hours: number | null, propeller: string | null = null) => ({
  ...{ n, engine: { serial, hours }, propeller: { serial: propeller, hours: null }, starter: null },
});

describe("what bars a plan", () => {
  const versions = (...statuses: ("draft" | "approved" | "superseded")[]) =>
    statuses.map((status, i) => ({ id: "four", version: i + 1, status }));

  it("[HSE-4] [HSE-6] is a type without approval, another version than the approved one, or retirement", () => {
    const on = (typeVersion: number) => ({ ...BIRD, typeVersion });
    expect(planBar(on(1), versions("approved"))).toBeNull();
    expect(planBar(on(1), versions("approved", "draft"))).toBeNull();
    expect(planBar(on(1), versions("draft"))).toEqual({ is: "noneApproved", typeId: "four" });
    expect(planBar(on(1), [])).toEqual({ is: "noneApproved", typeId: "four" });
    const superseded = { is: "superseded", version: 1, newest: 2 };
    expect(planBar(on(1), versions("superseded", "approved"))).toEqual(superseded);
    const draft = { is: "notApproved", version: 3, newest: 2 };
    expect(planBar(on(3), versions("superseded", "approved", "draft"))).toEqual(draft);
    expect(planBar({ ...BIRD, retired: true }, versions("approved"))).toEqual({ is: "retired" });
  });
});

describe("an entry", () => {
  it("[HSE-5] names each engine once, in order", () => {
    const fits = (...fitted: object[]) => houseAircraftSchema.safeParse({ ...BIRD, fitted }).success;
    expect(fits(place(1, "A", 0), place(2, "B", 1.5))).toBe(true);
    expect(fits(place(1, "A", 0), place(1, "B", 0))).toBe(false);
    expect(fits(place(2, "A", 0), place(1, "B", 0))).toBe(false);
    expect(fits(place(1, "A", -1))).toBe(false);
    expect(fits(place(1, "", 1))).toBe(false);
  });

  it("[HSE-5] has no part twice, on it or on another in service, and no engine the type lacks", () => {
    const other = { ...BIRD, id: "CH-OTH", fitted: [place(2, "A-7", null, "P-1")] };
    const now = { ...BIRD, fitted: [place(1, "A-7", null), place(2, "X", null, "P-1"), place(3, "X", null)] };
    expect(fittedFaults(now, 2, [other])).toEqual([
      { path: "fitted.2.n", message: "the type has engines 1 to 2 only" },
      { path: "fitted.0.engine.serial", message: "A-7 is fitted at CH-OTH already" },
      { path: "fitted.1.propeller.serial", message: "P-1 is fitted at CH-OTH already" },
      { path: "fitted.2.engine.serial", message: "X is fitted at CH-TST already" },
    ]);
    const retired = [{ ...other, retired: true }];
    expect(fittedFaults({ ...BIRD, fitted: [place(1, "A-7", null)] }, 2, retired)).toEqual([]);
    // An engine and a propeller are made by different makers: one number at both is no contradiction.
    expect(fittedFaults({ ...BIRD, fitted: [place(1, "7", null, "7")] }, 2, [])).toEqual([]);
  });

  it("[HSE-5] keeps the hours of a part that stays from falling, and of no other", () => {
    const before = { ...BIRD, fitted: [place(1, "A", 100), place(2, null, 50)] };
    const fallen = (...fitted: ReturnType<typeof place>[]) => fallenHours(before, { ...BIRD, fitted });
    expect(fallen(place(1, "A", 100), place(2, null, 50.1))).toEqual([]);
    expect(fallen(place(1, "B", 0), place(2, null, null))).toEqual([]);
    expect(fallen(place(1, "A", 99.9), place(2, null, 49))).toEqual([
      { path: "fitted.0.engine.hours", message: "were 100 h: a supervisor enters fewer, with a reason" },
      { path: "fitted.1.engine.hours", message: "were 50 h: a supervisor enters fewer, with a reason" },
    ]);
  });
});

it("[HSE-1] the changes of a state are named one by one, in the order of the page", () => {
  const before = { ...BIRD, fitted: [place(1, "A", 10, "P")] };
  const after = {
    ...{ ...BIRD, name: "Gull", typeVersion: 2, stand: "Stand 1", notes: "New", retired: true },
    fitted: [{ ...place(1, "B", 0, "P"), starter: "S" }, place(2, null, 4)],
  };
  expect(changesOf(before, before)).toEqual([]);
  expect(changesOf(before, after)).toEqual([
    { is: "retired" },
    { is: "name", before: "Bird", after: "Gull" },
    { is: "type", before: "four 1", after: "four 2" },
    { is: "stand", before: null, after: "Stand 1" },
    { is: "engine", n: 1, before: "A", after: "B" },
    { is: "engineHours", n: 1, before: 10, after: 0 },
    { is: "starter", n: 1, before: null, after: "S" },
    { is: "engineHours", n: 2, before: null, after: 4 },
    { is: "notes", before: null, after: "New" },
  ]);
  expect(changesOf({ ...BIRD, retired: true }, BIRD)).toEqual([{ is: "takenBack" }]);
});
