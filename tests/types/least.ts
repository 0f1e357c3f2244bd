import { POSTS } from "../../shared/protocol/posts.ts";
import { blankConditions } from "../../shared/types/blankConditions.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

const source = { basis: "fromMemory", text: "Figures of this test" } as const;
const of = <U extends string>(value: number, unit: U) => ({ value, unit, source });
const s = (value: number) => of(value, "s");

/**
 * Returns a two-engine type with the least that its checks demand. Every figure is made up for the tests: it is about no
 * aircraft.
 */
export function leastType(): AircraftType {
  return {
    id: "wren-twin",
    version: 1,
    name: "Wren twin",
    author: "–",
    approvedBy: null,
    note: "Made up for a test.",
    plan: { span: 28, length: 19, mainGearX: 6, gearTrack: 7, receptacle: { x: 8, y: 1 }, source },
    engines: [
      { n: 1, x: 3, y: -4, accessories: [], source },
      { n: 2, x: 3, y: 4, accessories: [], source },
    ],
    propeller: { diameter: 3.5, blades: 3, gearRatio: 0.5, source },
    defaultOrder: [2, 1],
    orderSource: source,
    brakePressure: { atLeast: of(800, "psi") },
    groundPower: { steadyMin: of(26, "V"), steadyMax: of(29, "V") },
    starter: { ladder: [{ onMax: s(30), rest: s(60) }], resetAfter: s(1800) },
    oil: {
      firstIndication: { atLeast: of(10, "psi"), within: s(10) },
      normal: { atLeast: of(40, "psi"), within: s(30) },
    },
    warmUp: [],
    gauges: [
      {
        ...{ id: "oilPressure", name: "Oil pressure", unit: "psi", perEngine: true },
        scale: { from: 0, to: 200, step: 5 },
        source,
      },
    ],
    checks: [],
    conditions: blankConditions(),
    overridable: [],
    bladeCount: { dueAfter: of(3600, "s"), blades: of(9, "count") },
    wind: { max: of(30, "kt"), gustMax: of(35, "kt") },
    drills: [],
    requiredPosts: [...POSTS],
    timing: {
      clearance: s(60),
      request: s(60),
      readBack: s(15),
      stop: s(5),
      stopEscalate: s(10),
      service: s(60),
      serviceEscalate: s(120),
      guardInPlace: s(300),
      arcClear: s(120),
      brakes: s(600),
      groundPower: s(600),
      area: s(900),
      weather: s(1800),
      override: s(60),
      resound: s(30),
      presenceSeen: s(120),
      presenceHeard: s(150),
      presenceHold: s(180),
    },
  };
}
