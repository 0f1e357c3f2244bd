import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "../spec/aircraft.ts";

const source = { basis: "invented", text: "for tests" } as const;
const limit = <U extends string>(value: number, unit: U) => ({ value, unit, source }) as const;
const factor = (value: number) => ({ value, source });
const s = (value: number) => limit(value, "s");
const gauge = (id: string, unit: "rpm" | "inHg", to: number) => ({
  id,
  name: id,
  unit,
  perEngine: true,
  scale: { from: 0, to, step: 1 },
  source,
});
const battery = (id: string) => ({
  id,
  name: id,
  cell: {
    chemistry: "leadAcid" as const,
    cells: 12,
    full: 1.28,
    empty: 1.12,
    voltsPerKelvin: 0,
    source,
  },
  capacity: limit(36, "Ah"),
  ratedOver: limit(1, "h"),
  exponent: factor(1.15),
  floor: limit(20, "percent"),
  ohms: {
    rows: [
      [-20, 0.02],
      [25, 0.01],
      [50, 0.01],
    ] as [number, number][],
    source,
  },
  capacityAt: {
    rows: [
      [-20, 0.5],
      [25, 1],
    ] as [number, number][],
    source,
  },
  check: "battery",
});
const neighbour = { around: limit(10, "m"), behind: limit(20, "m"), wind: limit(15.646, "m/s") };

/** The test type with every figure that the models can use, as round as published examples allow. */
export const RICH: AircraftType = {
  ...FOUR,
  groundPower: {
    ...FOUR.groundPower,
    starting: { min: limit(12, "V"), max: limit(29, "V") },
    // MIL-STD-704F figure 13 as remembered: 50 V for 12.5 ms down to the band, 18 V for 15 ms up to it.
    transients: {
      over: [
        [0, 50],
        [12.5, 50],
        [82.5, 29],
      ],
      under: [
        [0, 18],
        [15, 18],
        [100, 26],
      ],
      longestGap: s(0.05),
      source,
    },
  },
  starter: {
    ...FOUR.starter,
    colder: [
      {
        upTo: limit(0, "degC"),
        ladder: [{ onMax: s(20), rest: s(120) }],
        resetAfter: s(3600),
      },
    ],
    heat: {
      steady: limit(80, "K"),
      most: limit(80, "K"),
      coolTo: limit(40, "K"),
      tauOn: s(1),
      tauOff: s(600),
    },
  },
  oil: {
    ...FOUR.oil,
    grade: {
      name: "SAE 50",
      points: [
        { degC: 40, mm2s: 212 },
        { degC: 100, mm2s: 19.5 },
      ],
      source,
    },
    mostViscous: limit(5000, "mm2/s"),
    // 10 degF: Service Instruction 1505.
    preheat: { below: limit(10, "degF"), check: "preheat" },
  },
  checks: [
    // Twelve cells of 1.28 have not rested above 25.68 V.
    ...FOUR.checks.map((c) => (c.range ? { ...c, range: { ...c.range, max: 25.6 } } : c)),
    { id: "preheat", words: "Preheated", stage: "groundPower", post: "cockpit", source },
  ],
  warmUp: [{ gauge: "oilTemp", atLeast: limit(40, "degC"), keep: 60 }],
  gauges: [...FOUR.gauges, gauge("rpm", "rpm", 3000), gauge("manifold", "inHg", 60)],
  // FAA-H-8083-30: after standing over 30 min, three to four revolutions.
  bladeCount: {
    method: "hand",
    holds: s(1800),
    cases: [{ idle: { over: limit(30, "min") }, turn: { revolutions: 3, upTo: 4 }, source }],
  },
  wind: { ...FOUR.wind, tailMax: limit(10, "kt"), crossMax: limit(20, "kt") },
  electrical: {
    starter: { breakaway: limit(600, "A"), steady: limit(400, "A"), time: s(15) },
    leastVolts: limit(14, "V"),
    surprise: limit(2, "V"),
    batteries: [battery("one"), battery("two")],
    leadOhm: limit(0.005, "ohm"),
    cart: { size: "4/0", length: limit(60, "ft"), parallel: 1, source, mostDrop: limit(2, "V") },
  },
  runUp: {
    // 175 on a side and 50 between the sides: a flat engine's manual.
    magneto: { maxDrop: limit(175, "rpm"), maxDifference: limit(50, "rpm") },
    feather: { maxDrop: limit(100, "rpm"), recovery: limit(20, "rpm") },
    manifold: {
      spread: limit(1, "inHg"),
      rpmTolerance: limit(10, "rpm"),
      pressureGauge: "manifold",
      speedGauge: "rpm",
    },
    gauges: [],
  },
  order: {
    mustPrecede: [{ before: 3, after: 1, source }],
    needs: [{ accessory: "generator", weight: factor(1) }],
    powerAccessory: "generator",
    weights: {
      waitForAccessory: factor(10),
      walkMetre: factor(0.1),
      downwindFirstKnot: factor(1),
      powerMetre: factor(0.1),
      againstHabit: factor(1),
    },
  },
  ramp: {
    guard: {
      waits: { x: -4, y: 0 },
      standOff: limit(3, "m"),
      ahead: limit(0, "m"),
      aheadMost: limit(20, "m"),
      arcMargin: limit(2, "m"),
    },
    distances: { fuelling: neighbour, building: neighbour, aircraft: neighbour, public: neighbour },
    // 1 MW on a disc of 4 m with a figure of merit of 0.7: 24 709 N, far wake 56.66 m/s.
    jet: {
      power: limit(1000, "kW"),
      figureOfMerit: factor(0.7),
      decay: factor(6.2),
      halfWidth: factor(0.1),
      groundFactor: factor(1),
    },
    noise: {
      posts: {
        cockpit: limit(100, "dBA"),
        fireGuard: limit(105, "dBA"),
        groundPower: limit(95, "dBA"),
        supervisor: limit(70, "dBA"),
      },
      criterion: limit(90, "dBA"),
      exchange: limit(5, "dBA"),
      threshold: limit(80, "dBA"),
    },
    lightning: { stopWithin: limit(6, "mi"), resumeAfter: s(1800) },
  },
};
