import type { Fault } from "./fault.ts";
import type { AircraftType } from "./schema.ts";

/** Reports faults of the idle's steps that the schema cannot express. */
export function idleChecks({ idle = [], gauges }: AircraftType, fault: Fault): void {
  idle.forEach(({ rpm, from }, i) => {
    const path = `idle.${i}`;
    if ((from === undefined) !== (i === 0))
      fault(`${path}.from`, "every step but the first begins with a figure");
    const before = idle[i - 1];
    if (before && rpm.value <= before.rpm.value)
      fault(`${path}.rpm.value`, "each step is faster than the one before");
    if (!from) return;
    const gauge = gauges.find((g) => g.id === from.gauge);
    const [key, limit] = "riseOf" in from ? ["riseOf", from.riseOf] : ["atLeast", from.atLeast];
    if (!gauge?.perEngine) fault(`${path}.from.gauge`, "no gauge of that id for each engine");
    else if (gauge.unit !== limit.unit) fault(`${path}.from.${key}.unit`, `must be ${gauge.unit}`);
  });
}
