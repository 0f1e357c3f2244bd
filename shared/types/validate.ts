import { POSTS } from "../protocol/posts.ts";
import { cardChecks } from "./cardChecks.ts";
import { conditionChecks } from "./conditionChecks.ts";
import { electricalChecks } from "./electricalChecks.ts";
import { engineChecks } from "./engineChecks.ts";
import type { TypeFault } from "./fault.ts";
import { faultsOf } from "./faultWords.ts";
import { gaugeChecks } from "./gaugeChecks.ts";
import { idleChecks } from "./idleChecks.ts";
import { isOrderOf } from "./isOrderOf.ts";
import { placeChecks } from "./placeChecks.ts";
import { rampChecks } from "./rampChecks.ts";
import { type AircraftType, aircraftTypeSchema } from "./schema.ts";
import { stoppingChecks } from "./stoppingChecks.ts";
import { timeChecks } from "./timeChecks.ts";

export type { TypeFault } from "./fault.ts";

/**
 * Returns unknown data as an aircraft type, or its faults: first those of the shape, then those that the shape cannot
 * express.
 */
export function readAircraftType(data: unknown): { type: AircraftType } | { faults: TypeFault[] } {
  const parsed = aircraftTypeSchema.safeParse(data);
  if (!parsed.success) return { faults: faultsOf(parsed.error.issues) };
  const faults = crossChecks(parsed.data);
  return faults.length > 0 ? { faults } : { type: parsed.data };
}

function crossChecks(type: AircraftType): TypeFault[] {
  const faults: TypeFault[] = [];
  const fault = (path: string, message: string) => faults.push({ path, message });

  type.engines.forEach((e, i) => {
    if (e.n !== i + 1) fault(`engines.${i}.n`, `engines are listed in order from port: expected ${i + 1}`);
    const before = type.engines[i - 1];
    if (before && before.y >= e.y) {
      fault(`engines.${i}.y`, `engine ${e.n} must stand to starboard of engine ${before.n}`);
    }
  });
  if (!isOrderOf(type.defaultOrder, type)) fault("defaultOrder", "must name engines of this type, each once");
  const gauges = new Map(type.gauges.map((g) => [g.id, g]));
  if (gauges.size !== type.gauges.length) fault("gauges", "two gauges have the same id");
  if (!gauges.get("oilPressure")?.perEngine) {
    fault("gauges", "an oilPressure gauge for each engine is needed");
  }
  type.warmUp.forEach((w, i) => {
    const gauge = gauges.get(w.gauge);
    const [key, limit] = "riseOf" in w ? ["riseOf", w.riseOf] : ["atLeast", w.atLeast];
    if (!gauge?.perEngine) fault(`warmUp.${i}.gauge`, "no gauge of that id for each engine");
    else if (gauge.unit !== limit.unit) fault(`warmUp.${i}.${key}.unit`, `must be ${gauge.unit}`);
  });
  gaugeChecks(type, fault);
  placeChecks(type, fault);
  engineChecks(type, fault);
  electricalChecks(type, fault);
  rampChecks(type, fault);
  cardChecks(type, fault);
  stoppingChecks(type, fault);
  idleChecks(type, fault);
  const checks = new Set(type.checks.map((c) => c.id));
  if (checks.size !== type.checks.length) {
    fault("checks", "two checks have the same id");
  }
  conditionChecks(type, fault);
  timeChecks(type, fault);
  if (new Set(type.drills.map((d) => d.id)).size !== type.drills.length) {
    fault("drills", "two drills have the same id");
  }
  const { presenceSeen, presenceHeard, presenceHold, presenceAgain } = type.timing;
  if (presenceSeen.value >= presenceHeard.value || presenceHeard.value >= presenceHold.value) {
    fault("timing", "presence must be seen, then heard, then hold");
  }
  if (presenceAgain !== undefined && presenceAgain.value < presenceSeen.value) {
    fault("timing", "presence is asked again no sooner than it is seen");
  }
  for (const post of POSTS) {
    if (post !== "groundPower" && !type.requiredPosts.includes(post)) {
      fault("requiredPosts", `${post} cannot be left out`);
    }
  }
  return faults;
}
