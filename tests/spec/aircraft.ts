import type { AircraftType } from "../../shared/types/schema.ts";

const source = { basis: "invented", text: "for tests" } as const;
const seconds = (value: number) => ({ value, unit: "s", source }) as const;
const limit = (value: number, unit: "V" | "psi" | "degC") => ({ value, unit, source }) as const;
const gauge = (id: string, unit: "V" | "psi" | "degC", perEngine: boolean, from: number, to: number) => ({
  id,
  name: id,
  unit,
  perEngine,
  scale: { from, to, step: 1 },
  source,
});

/** A small four-engined aircraft type for tests. Its starter and oil limits are those of published worked examples. */
export const FOUR: AircraftType = {
  id: "four",
  version: 1,
  name: "Four-engined test type",
  author: "tests",
  approvedBy: null,
  note: "Not an aircraft.",
  plan: {
    span: 36,
    length: 28,
    mainGearX: 12,
    gearTrack: 7.5,
    receptacle: { x: 8, y: -1 },
  },
  engines: [-9, -4, 4, 9].map((y, i) => ({ n: i + 1, x: 8, y, accessories: ["generator"] })),
  propeller: { diameter: 4, blades: 3, gearRatio: 0.5 },
  defaultOrder: [3, 4, 2, 1],
  orderSource: source,
  brakePressure: { atLeast: limit(600, "psi") },
  groundPower: { steadyMin: limit(26, "V"), steadyMax: limit(29, "V") },
  // 40 s on, 60 s off, 40 on, 60 off, 40 on, 30 min off: TM 55-1510-215-10.
  starter: {
    ladder: [
      { onMax: seconds(40), rest: seconds(60) },
      { onMax: seconds(40), rest: seconds(60) },
      { onMax: seconds(40), rest: seconds(1800) },
    ],
    resetAfter: seconds(1800),
  },
  oil: {
    firstIndication: { atLeast: limit(5, "psi"), within: seconds(5) },
    normal: { atLeast: limit(40, "psi"), within: seconds(10) },
  },
  warmUp: [{ gauge: "oilTemp", atLeast: limit(40, "degC") }],
  gauges: [
    gauge("oilPressure", "psi", true, 0, 200),
    gauge("oilTemp", "degC", true, -40, 120),
    gauge("busVolts", "V", false, 0, 40),
  ],
  checks: [
    { id: "bottles", words: "Bottles charged", stage: "secure", post: "fireGuard", source },
    { id: "walkRound", words: "Walk round", stage: "secure", post: "supervisor", source },
    {
      id: "battery",
      words: "Battery alone",
      stage: "powerUp",
      post: "cockpit",
      range: { unit: "V", min: 24, max: 26 },
      source,
    },
    { id: "cart", words: "Cart output off", stage: "groundPower", post: "groundPower", source },
  ],
  conditions: [
    "noStopOpen",
    "guardInPlace",
    "arcClear",
    "brakesSet",
    "chocksIn",
    "groundPowerKnown",
    "noOtherTurningUp",
    "othersSettled",
    "starterCool",
    "postsHeld",
    "handsOffPropellers",
  ],
  overridable: [],
  bladeCount: { dueAfter: seconds(1800), blades: { value: 9, unit: "count", source } },
  wind: {
    max: { value: 30, unit: "kt", source },
    gustMax: { value: 40, unit: "kt", source },
  },
  drills: [],
  requiredPosts: ["cockpit", "fireGuard", "supervisor"],
  timing: {
    clearance: seconds(30),
    request: seconds(120),
    readBack: seconds(5),
    stop: seconds(2.5),
    stopEscalate: seconds(5),
    service: seconds(15),
    serviceEscalate: seconds(30),
    guardInPlace: seconds(90),
    arcClear: seconds(45),
    brakes: seconds(600),
    groundPower: seconds(900),
    area: seconds(3600),
    weather: seconds(3600),
    override: seconds(60),
    resound: seconds(86_400),
    // Longer than any story, because presence has stories of its own.
    instrument: seconds(5),
    presenceSeen: seconds(86_390),
    presenceHeard: seconds(86_395),
    presenceHold: seconds(86_400),
  },
};
