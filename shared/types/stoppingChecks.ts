import type { Fault } from "./fault.ts";
import { isOrderOf } from "./isOrderOf.ts";
import type { AircraftType } from "./schema.ts";

/** Reports faults of the rules for stopping that the schema cannot express. */
export function stoppingChecks(type: AircraftType, fault: Fault): void {
  const { stopping } = type;
  if (!stopping) return;
  if (!isOrderOf(stopping.order, type) || stopping.order.length !== type.engines.length) {
    fault("stopping.order", "must name every engine of this type, each once");
  }
  const { coolDown } = stopping;
  if (coolDown && coolDown.atIdle === undefined && coolDown.gauges.length === 0) {
    fault("stopping.coolDown", "needs a time at idle or a gauge");
  }
  coolDown?.gauges.forEach(({ gauge: id, atMost }, i) => {
    const gauge = type.gauges.find((g) => g.id === id);
    const path = `stopping.coolDown.gauges.${i}`;
    if (!gauge?.perEngine) fault(`${path}.gauge`, "no gauge of that id for each engine");
    else if (gauge.unit !== atMost.unit) fault(`${path}.atMost.unit`, `must be ${gauge.unit}`);
    else if (atMost.value < gauge.scale.from || atMost.value > gauge.scale.to)
      fault(`${path}.atMost.value`, "cannot be read on its gauge");
  });
}
