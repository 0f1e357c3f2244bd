import fc from "fast-check";
import { describe, expect, it } from "vitest";
import carrack from "../../seed/types/carrack-three.json" with { type: "json" };
import kestle from "../../seed/types/kestle-four.json" with { type: "json" };
import { type Difference, difference } from "../../shared/types/difference.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "../spec/aircraft.ts";

const published = { basis: "published", text: "Maintenance manual, chapter 79" } as const;
const change = (make: (copy: AircraftType) => void): Difference[] => {
  const copy = structuredClone(FOUR);
  make(copy);
  return difference(FOUR, copy);
};
const item = <T>(list: readonly T[], at: number): T => {
  const found = list[at];
  if (found === undefined) throw new Error(`no item ${at}`);
  return found;
};

describe("the difference of two versions", () => {
  it("[TYP-9] is empty for equal figures, whatever their number, author and approval", () => {
    expect(difference(FOUR, structuredClone(FOUR))).toEqual([]);
    expect(difference(FOUR, { ...FOUR, version: 2, author: "Di", approvedBy: "Fay" })).toEqual([]);
  });

  it("[TYP-9] names a limit by its path, with its unit before and after", () => {
    const found = change((t) => {
      t.oil.normal.within.value = 25;
    });
    expect(found).toEqual([{ path: "oil.normal.within", before: "10 s", after: "25 s" }]);
  });

  it("[TYP-9] tells a changed unit, and a changed source apart from its figure", () => {
    const found = change((t) => {
      t.brakePressure.atLeast = { value: 41, unit: "bar", source: published };
    });
    expect(found).toEqual([
      { path: "brakePressure.atLeast", before: "600 psi", after: "41 bar" },
      {
        path: "brakePressure.atLeast.source",
        before: "Invented: for tests",
        after: "Published: Maintenance manual, chapter 79",
      },
    ]);
    const source = change((t) => {
      t.orderSource = published;
    });
    expect(source.map((d) => d.path)).toEqual(["orderSource"]);
  });

  it("[TYP-9] knows list items by their id, wherever they stand, and says when their order changed", () => {
    const found = change((t) => {
      t.gauges.reverse();
      item(t.gauges, 0).scale.to = 50;
    });
    expect(found).toEqual([
      {
        path: "gauges",
        before: "oilPressure, oilTemp, busVolts",
        after: "busVolts, oilTemp, oilPressure",
      },
      { path: "gauges.busVolts.scale.to", before: "40", after: "50" },
    ]);
  });

  it("[TYP-9] tells what was added and what was taken out, with all its figures", () => {
    const found = change((t) => {
      t.checks = t.checks.filter((c) => c.id !== "battery");
      t.starter.ladder.pop();
      t.conditions.push("brakesSet", "windWithinLimits");
      t.conditions.splice(t.conditions.indexOf("brakesSet"), 1);
    });
    expect(found).toContainEqual({ path: "checks.battery.words", before: "Battery alone", after: null });
    expect(found).toContainEqual({ path: "checks.battery.range.max", before: "26", after: null });
    expect(found).toContainEqual({
      path: "checks.battery.source",
      before: "Invented: for tests",
      after: null,
    });
    expect(found).toContainEqual({ path: "starter.ladder.3.rest", before: "1800 s", after: null });
    expect(found).toContainEqual({
      path: "starter.ladder.3.rest.source",
      before: "Invented: for tests",
      after: null,
    });
    expect(found).toContainEqual({ path: "conditions", before: null, after: "windWithinLimits" });
  });

  it("[TYP-9] shows an order of engines whole", () => {
    const found = change((t) => {
      t.defaultOrder = [2, 1, 3, 4];
    });
    expect(found).toEqual([{ path: "defaultOrder", before: "3, 4, 2, 1", after: "2, 1, 3, 4" }]);
  });

  it("[TYP-9] tells where a figure that may be left out came or went, and none from nothing", () => {
    expect(
      change((t) => {
        item(t.gauges, 0).normalLow = 60;
      }),
    ).toEqual([{ path: "gauges.oilPressure.normalLow", before: null, after: "60" }]);
    expect(
      change((t) => {
        t.requiredPosts = [];
      }),
    ).toHaveLength(3);
  });

  it("[TYP-9] turns round with its versions, on types that have little in common", () => {
    const [a, b] = [carrack as unknown as AircraftType, kestle as unknown as AircraftType];
    const there = difference(a, b);
    const back = difference(b, a).map((d) => ({ path: d.path, before: d.after, after: d.before }));
    const key = (d: Difference) => JSON.stringify(d);
    expect(there.length).toBeGreaterThan(20);
    expect(there.map(key).sort()).toEqual(back.map(key).sort());
  });

  it("[TYP-9] misses no figure: whichever leaf of a type changes, exactly what holds it is named", () => {
    const leaves = leavesOf(kestle);
    fc.assert(
      fc.property(fc.constantFrom(...leaves), (path) => {
        const copy = structuredClone(kestle) as unknown as AircraftType;
        const [holder, last] = at(copy, path);
        const was = holder[last];
        holder[last] = typeof was === "number" ? was + 1 : typeof was === "boolean" ? !was : `${was}x`;
        const found = difference(kestle as unknown as AircraftType, copy);
        expect(found.length, path.join(".")).toBeGreaterThan(0);
        for (const d of found) expect(d.path.split(".")[0]).toBe(String(path[0]));
      }),
      { numRuns: 400, seed: 9 },
    );
  });
});

type Step = string | number;
type Holder = Record<Step, unknown>;

function leavesOf(value: unknown, path: Step[] = []): Step[][] {
  if (typeof value !== "object" || value === null) {
    return ["version", "author", "approvedBy"].includes(String(path[0])) ? [] : [path];
  }
  const keys: Step[] = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return keys.flatMap((key) => leavesOf((value as Holder)[key], [...path, key]));
}

function at(root: unknown, path: readonly Step[]): [Holder, Step] {
  const holder = path.slice(0, -1).reduce((v, key) => (v as Holder)[key], root) as Holder;
  return [holder, path.at(-1) ?? ""];
}
