import { expect, it } from "vitest";
import { Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import type { Script } from "../../shared/partners/script.ts";
import { enteredBy } from "../../shared/types/enteredBy.ts";
import { aircraftTypeJsonSchema } from "../../shared/types/jsonSchema.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readTransfer } from "../../shared/types/transfer.ts";
import { unsourced } from "../../shared/types/unsourced.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { completed, type Node } from "../../web/pages/types/form/node.ts";
import { isGap } from "../../web/pages/types/gaps.ts";
import { playOut } from "../seed/stage.ts";
import { leastType } from "./least.ts";

const SCRIPT: Script = { seed: 3, pace: 1, cart: "Bal Maiden" };

it("[TYP-28] the least type that the checks accept can be started to its end", () => {
  expect(readAircraftType(leastType())).toEqual({ type: leastType() });
  const stage = new Stage(leastType(), "groundPower");
  stage.everyoneClaims();
  expect(playOut(stage, SCRIPT)).toBeNull();
});

it("[TYP-36] each figure says who entered it: whoever changed it or its source, and nobody by claim", () => {
  const first = enteredBy(null, leastType(), "Ada") as AircraftType;
  expect(first.plan.source?.by).toBe("Ada");
  expect(first.orderSource.by).toBe("Ada");
  expect(first.timing.stop.source.by).toBe("Ada");
  const changed = structuredClone(first);
  changed.timing.stop.value = 6;
  changed.oil.normal.within.source.page = "4-2";
  changed.timing.brakes.source.by = "Eve";
  changed.engines.reverse();
  const second = enteredBy(first, changed, "Bo") as AircraftType;
  expect(second.timing.stop.source.by).toBe("Bo");
  expect(second.oil.normal.within.source).toMatchObject({ by: "Bo", page: "4-2" });
  expect(second.timing.brakes.source.by).toBe("Ada");
  expect(second.engines.map((e) => e.source?.by)).toEqual(["Ada", "Ada"]);
  expect(readAircraftType(first)).toEqual({ type: first });
});

it("[TYP-37] every measure that has no source is named with its place", () => {
  const type = leastType();
  expect(unsourced(type)).toEqual([]);
  delete type.plan.source;
  delete type.propeller.source;
  for (const e of type.engines) delete e.source;
  expect(unsourced(type).map((f) => f.path)).toEqual([
    "plan.source",
    "engines.0.source",
    "engines.1.source",
    "propeller.source",
  ]);
});

it("[TYP-35] a blank type asks for every part: all of it is a gap, none of it is filled in", () => {
  const root = aircraftTypeJsonSchema() as Node;
  const blank = completed({ engines: [{ n: 1 }, { n: 2 }] }, root, root);
  const read = readAircraftType(blank);
  const faults = "faults" in read ? read.faults : [];
  expect(faults.filter((f) => !isGap(f, blank))).toEqual([]);
  expect(faults.map((f) => f.path)).toEqual(
    expect.arrayContaining([
      "plan.span",
      "engines.1.y",
      "propeller.diameter",
      "plan.source.basis",
      "timing.stop.value",
    ]),
  );
});

it("[TYP-8] the file of a type is read with its caution or without, and a fault is named with its place", () => {
  expect(readTransfer(leastType())).toEqual({ type: leastType() });
  expect(readTransfer({ caution: "x", type: leastType() })).toEqual({ type: leastType() });
  expect(readTransfer({ ...leastType(), name: "" })).toMatchObject({ faults: [{ path: "name" }] });
});

it("[TYP-25] a battery's electrolyte is measured no later than its gravity, whatever their order in the list", () => {
  const carrack = demo.types.find((t) => t.id === "carrack-three");
  const later = structuredClone(carrack) as AircraftType;
  for (const check of later.checks) if (check.id === "battery1Warm") check.stage = "release";
  expect(readAircraftType(later)).toEqual({
    faults: [
      {
        path: "electrical.batteries.0.gravity.temperature",
        message: "its check comes before the hydrometer's",
      },
    ],
  });
});
