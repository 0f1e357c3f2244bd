import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { applies, DEFINITIONS } from "../../shared/conditions/all.ts";
import { SERVICES } from "../../shared/leaves/services.ts";
import { inboardEngines } from "../../shared/models/inboard.ts";
import { CONDITION_IDS } from "../../shared/protocol/conditions.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { unsourced } from "../../shared/types/unsourced.ts";
import { readAircraftType } from "../../shared/types/validate.ts";

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** Returns every object that states a figure, a gauge, a check, an item of the card or a drill, with its path. */
function sourced(value: Json, path = ""): { path: string; source: Json | undefined }[] {
  if (Array.isArray(value)) return value.flatMap((v, i) => sourced(v, `${path}.${i}`));
  if (value === null || typeof value !== "object") return [];
  const states =
    ("value" in value && "unit" in value) ||
    ["scale", "triggers", "moment"].some((k) => k in value) ||
    "stage" in value;
  const own = states ? [{ path, source: value.source }] : [];
  return [...own, ...Object.entries(value).flatMap(([k, v]) => sourced(v, `${path}.${k}`))];
}

/** Reference documents that a published figure may cite. */
const DOCUMENTS = new RegExp(
  [
    "AAF Manual 50-16",
    "airline operations",
    "1946 operations regulations",
    "AC 61-2[13]",
    "FAA-H-8083-30",
    "Airplane Flying Handbook",
    "TM 1-15\\d\\d-\\d+-[\\d-]+",
    "NAVEDTRA 14008",
    "[Rr]egional turboprop manual, 2015",
    "SAIB NE-17-11",
    "Service Instruction 1505",
    "AC 43\\.13-1B",
    "29 CFR 1910\\.95",
    "Specific Operating Instructions No\\. 72",
    "NZ pilot theory syllabus 12\\.24\\.4",
    "IMO MSC\\.302\\(87\\)",
    "(training syllabus|US weather service practice), second-hand",
  ].join("|"),
);

describe.each(demo.types.map((t) => [t.id, t] as const))("%s", (_id, type) => {
  const json = JSON.parse(JSON.stringify(type)) as Json;

  it("[SED-1] is valid by the rules of the types, and says that it is invented", () => {
    expect(readAircraftType(json)).toEqual({ type });
    expect(type.note).toMatch(/Invented/);
    expect(type.note).toMatch(/No such aircraft exists/);
  });

  it("[SED-2] names a source for every figure, gauge, check, item of the card and drill", () => {
    const all = [...sourced(json), { path: "orderSource", source: type.orderSource as Json }];
    expect(all.length).toBeGreaterThan(50);
    for (const { path, source } of all) {
      const { basis, text } = source as { basis: string; text: string };
      switch (basis) {
        case "published":
        case "anotherType":
          expect(text, path).toMatch(DOCUMENTS);
          expect(text, path).toMatch(basis === "published" ? /\(general text/ : /not this type's limit/);
          break;
        case "commonPractice":
          expect(text, path).toMatch(/no source/);
          break;
        case "fromMemory":
          expect(text, path).toMatch(/From memory/);
          break;
        default:
          expect(basis, path).toBe("invented");
          expect(text, path).toMatch(/our own judgement/i);
      }
    }
  });

  it("[SED-2] [TYP-37] names a source for its measures, stations, propeller and guard's place", () => {
    expect(unsourced(type)).toEqual([]);
  });

  it("[SED-3] has gauges whose bands lie in order on their scales, and limits that can be read on them", () => {
    const on = new Map(type.gauges.map((g) => [g.id, g.scale]));
    for (const g of type.gauges) {
      const marks = [g.scale.from, g.min, g.normalLow, g.normalHigh, g.max, g.scale.to];
      const given = marks.filter((m) => m !== undefined);
      expect(given, g.id).toEqual([...given].sort((a, b) => a - b));
      expect(given.length, g.id).toBeGreaterThanOrEqual(4);
    }
    const limits = [
      ...type.warmUp.map((w) => [w.gauge, "atLeast" in w ? w.atLeast : w.riseOf] as const),
      ["oilPressure", type.oil.firstIndication.atLeast] as const,
      ["oilPressure", type.oil.normal.atLeast] as const,
    ];
    for (const [gauge, { value }] of limits) {
      expect(value, gauge).toBeGreaterThan(on.get(gauge)?.from ?? Number.POSITIVE_INFINITY);
      expect(value, gauge).toBeLessThan(on.get(gauge)?.to ?? Number.NEGATIVE_INFINITY);
    }
  });

  it("[SED-4] stands as an aircraft could: symmetric, propellers clear of each other, order over every engine", () => {
    const { engines, propeller, plan } = type;
    expect(engines.map((e) => e.y)).toEqual(engines.map((e) => 0 - e.y).reverse());
    engines.forEach((e, i) => {
      const next = engines[i + 1];
      const apart = next ? Math.hypot(next.x - e.x, next.y - e.y) : Number.POSITIVE_INFINITY;
      expect(apart).toBeGreaterThan(propeller.diameter);
      expect(Math.abs(e.y) + propeller.diameter / 2).toBeLessThan(plan.span / 2);
      const toReceptacle = Math.hypot(plan.receptacle.x - e.x, plan.receptacle.y - e.y);
      expect(toReceptacle).toBeGreaterThan(propeller.diameter / 2 + 1);
    });
    expect([...type.defaultOrder].sort()).toEqual(engines.map((e) => e.n));
    expect(plan.mainGearX).toBeLessThan(plan.length);
  });

  it("[SED-4] gives what the first engine drives as the reason to start it first", () => {
    const first = engineDrives(type.defaultOrder[0] ?? 0);
    expect(first).toContain("hydraulicPump");
    function engineDrives(n: number) {
      return type.engines.find((e) => e.n === n)?.accessories ?? [];
    }
  });
});

it("[SED-14] together the types use every condition there is", () => {
  const scopes = ["clearance", ...SERVICES] as const;
  const used = DEFINITIONS.filter((c) =>
    demo.types.some((type) => scopes.some((scope) => applies(type, c, scope))),
  );
  expect(used.map((c) => c.id)).toEqual(CONDITION_IDS);
});

it("[SED-14] the wheels of the four-engined type stand behind its inboard propellers, which stop for the chocks", () => {
  const type = demo.types.find((t) => t.id === "kestle-four");
  if (!type) throw new Error("there is no such type");
  for (const n of inboardEngines(type)) {
    const { x, y } = type.engines[n - 1] ?? { x: Number.NaN, y: Number.NaN };
    expect(type.plan.mainGearX).toBeGreaterThan(x);
    expect(Math.abs(Math.abs(y) - type.plan.gearTrack / 2)).toBeLessThan(type.propeller.diameter / 2);
  }
  expect(type.conditions).toContain("inboardStopped");
});

/** Returns the gates that need a figure: gauge, value, unit. */
function gatesOf(type: AircraftType) {
  return type.warmUp.flatMap((w) => ("atLeast" in w ? [[w.gauge, w.atLeast.value, w.atLeast.unit]] : []));
}

describe("figures told by the C-46 marking table", () => {
  it("[SED-3] are those of AAF Manual 50-16, W10: oil 39 degC below the gate, 40 on it", () => {
    for (const type of demo.types.filter((t) => t.id !== "carrack-three")) {
      expect(gatesOf(type)).toEqual([
        ["oilTemp", 40, "degC"],
        ["headTemp", 120, "degC"],
      ]);
      const oil = type.gauges.find((g) => g.id === "oilPressure");
      expect([oil?.min, oil?.normalLow, oil?.normalHigh, oil?.max]).toEqual([25, 80, 90, 100]);
    }
  });

  it("[SED-3] are 104 and 250 degF on the type read in Fahrenheit (airline operations 1946, 3034)", () => {
    const carrack = demo.types.find((t) => t.id === "carrack-three");
    expect(carrack && gatesOf(carrack).map(([, value, unit]) => [value, unit])).toEqual([
      [104, "degF"],
      [250, "degF"],
    ]);
  });
});
