import { describe, expect, it } from "vitest";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { RICH } from "../figures/rich.ts";
import { FOUR } from "../spec/aircraft.ts";

type Part<K extends keyof AircraftType> = NonNullable<AircraftType[K]>;
const source = { basis: "invented", text: "for tests" } as const;
const limit = <U extends string>(value: number, unit: U) => ({ value, unit, source }) as const;
const electrical = RICH.electrical as Part<"electrical">;
const runUp = RICH.runUp as Part<"runUp">;
const order = RICH.order as Part<"order">;
const ramp = RICH.ramp as Part<"ramp">;
const [cold] = RICH.starter.colder ?? [];
const [battery] = electrical.batteries ?? [];
const { guard } = ramp;
const { cart } = electrical;
if (!cold || !battery || !guard || !cart) throw new Error("the rich type lacks a part");

function faults(change: Partial<AircraftType>) {
  const read = readAircraftType({ ...RICH, ...change });
  return "faults" in read ? read.faults.map((f) => `${f.path}: ${f.message}`) : [];
}

describe("what a type's shape cannot say", () => {
  it("[TYP-11] a type with every figure and one with the least are both valid", () => {
    expect(faults({})).toEqual([]);
    expect(readAircraftType(FOUR)).toEqual({ type: FOUR });
  });

  it.each<[string, Partial<AircraftType>, RegExp]>([
    [
      "bands that do not rise",
      { starter: { ...RICH.starter, colder: [cold, { ...cold, upTo: limit(-5, "degC") }] } },
      /starter\.colder: temperature bands rise/,
    ],
    [
      "a new series before the longest rest is over",
      { starter: { ...RICH.starter, resetAfter: limit(1799, "s") } },
      /starter\.resetAfter: must not be shorter than the longest rest, 1800 s/,
    ],
    [
      "heat to cool to above the most",
      {
        starter: {
          ...RICH.starter,
          heat: { ...(RICH.starter.heat as NonNullable<typeof RICH.starter.heat>), coolTo: limit(80, "K") },
        },
      },
      /starter\.heat\.coolTo/,
    ],
    [
      "first indication later than normal in a colder band",
      {
        oil: {
          ...RICH.oil,
          colder: [
            {
              upTo: limit(0, "degC"),
              firstIndication: { atLeast: limit(5, "psi"), within: limit(30, "s") },
              normal: { atLeast: limit(40, "psi"), within: limit(20, "s") },
            },
          ],
        },
      },
      /oil\.colder\.0: first indication cannot be due later/,
    ],
    [
      "oil thicker when hotter",
      {
        oil: {
          ...RICH.oil,
          grade: {
            name: "x",
            points: [
              { degC: 40, mm2s: 10 },
              { degC: 100, mm2s: 19 },
            ],
            source,
          },
        },
      },
      /oil\.grade\.points: oil is thinner when hotter/,
    ],
    [
      "a preheat check that is not there",
      { checks: FOUR.checks },
      /oil\.preheat\.check: needs a check without a figure of the id preheat/,
    ],
    [
      "bouts that make too few blades",
      {
        bladeCount: {
          method: "hand",
          holds: limit(60, "s"),
          cases: [{ idle: "always", turn: { blades: 16 }, bouts: [2, 2, 11], source }],
        },
      },
      /bladeCount\.cases\.0\.bouts: make 15 blades of the 16/,
    ],
    [
      "starting band upside down",
      {
        groundPower: {
          ...RICH.groundPower,
          starting: { min: limit(29, "V"), max: limit(12, "V") },
        },
      },
      /groundPower\.starting: the lowest volts/,
    ],
    [
      "a transient that does not end on the steady band",
      {
        groundPower: {
          ...RICH.groundPower,
          transients: {
            over: [
              [0, 50],
              [80, 30],
            ],
            under: [[0, 26]],
            longestGap: limit(1, "s"),
            source,
          },
        },
      },
      /groundPower\.transients: the over-voltage transient ends on the steady band, 29 V/,
    ],
    [
      "wire no table has",
      { electrical: { ...electrical, cart: { ...cart, size: "5/0" } } },
      /electrical\.cart\.size: no wire 5\/0/,
    ],
    [
      "ohms out of order",
      {
        electrical: {
          ...electrical,
          batteries: [
            {
              ...battery,
              ohms: {
                rows: [
                  [20, 0.01],
                  [0, 0.02],
                ],
                source,
              },
            },
          ],
        },
      },
      /electrical\.batteries\.0\.ohms\.rows: temperatures must rise/,
    ],
    [
      "a battery's check that reads no volts",
      { electrical: { ...electrical, batteries: [{ ...battery, check: "walkRound" }] } },
      /electrical\.batteries\.0\.check: the check walkRound must read volts/,
    ],
    [
      "a motor that draws less at first",
      { electrical: { ...electrical, starter: { ...electrical.starter, breakaway: limit(300, "A") } } },
      /electrical\.starter\.breakaway/,
    ],
    [
      "a run-up on a gauge of another unit",
      { runUp: { ...runUp, manifold: { ...runUp.manifold, pressureGauge: "oilPressure" } } },
      /runUp\.manifold\.pressureGauge: oilPressure must be read in inHg/,
    ],
    [
      "a run-up gauge without a mark",
      { runUp: { ...runUp, gauges: ["oilTemp"] } },
      /runUp\.gauges\.0: oilTemp has no mark to judge by/,
    ],
    [
      "precedence in a circle",
      {
        order: {
          ...order,
          mustPrecede: [
            { before: 3, after: 1, source },
            { before: 1, after: 3, source },
          ],
        },
      },
      /order\.mustPrecede: 3 before 1 before 3|order\.mustPrecede: 1 before 3 before 1/,
    ],
    [
      "a default order against precedence",
      { order: { ...order, mustPrecede: [{ before: 1, after: 3, source }] } },
      /order\.mustPrecede\.0: the default order starts 3 before 1/,
    ],
    [
      "a need nobody drives",
      { order: { ...order, needs: [{ accessory: "airPump", weight: { value: 1, source } }] } },
      /order\.needs\.0\.accessory: no engine drives airPump/,
    ],
    [
      "a gust's limit below the wind's",
      { wind: { ...RICH.wind, gustMax: limit(29, "kt") } },
      /wind\.gustMax/,
    ],
    [
      "a guard within the margin of a turning disc",
      { ramp: { ...ramp, guard: { ...guard, standOff: limit(1, "m") } } },
      /ramp\.guard\.standOff/,
    ],
  ])("[TYP-11] names %s", (_what, change, message) => {
    // A circle also breaks any default order: each fault is reported once.
    expect(faults(change).filter((f) => message.test(f))).toHaveLength(1);
  });

  it("[TYP-12] a blade count of before, after a time and always so many, stays readable", () => {
    const simple = {
      dueAfter: limit(1800, "s"),
      blades: limit(9, "count"),
    };
    expect(faults({ bladeCount: simple })).toEqual([]);
  });
});
