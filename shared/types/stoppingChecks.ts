import type { Fault } from "./fault.ts";
import { isOrderOf } from "./isOrderOf.ts";
import type { AircraftType } from "./schema.ts";
import type { OilDilution } from "./stopping.ts";

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
  if (stopping.oilDilution) dilutionChecks(type, stopping.oilDilution, fault);
}

function dilutionChecks(type: AircraftType, rule: OilDilution, fault: Fault): void {
  const path = "stopping.oilDilution";
  const check = type.checks.find((c) => c.id === rule.check);
  const unit = check?.range?.unit;
  if (!check) fault(`${path}.check`, `no check of the id ${rule.check}`);
  else if (unit !== "degC" && unit !== "degF")
    fault(`${path}.check`, `the check ${rule.check} must read a temperature`);
  else if (check.post !== "cockpit" || (check.stage !== "stopping" && check.stage !== "stowing"))
    fault(`${path}.check`, "must be the cockpit's, in the stage stopping or stowing");
  if (check?.range && (check.range.min !== undefined || check.range.max !== undefined))
    fault(`${path}.check`, "a forecast has no range: it is neither good nor bad");
  if (unit && rule.noneFrom.unit !== unit) fault(`${path}.noneFrom.unit`, `must be ${unit}`);
  rule.steps.forEach((step, i) => {
    const at = `${path}.steps.${i}`;
    const before = rule.steps[i - 1];
    if (unit && step.downTo.unit !== unit) fault(`${at}.downTo.unit`, `must be ${unit}`);
    if (step.downTo.value >= (before?.downTo ?? rule.noneFrom).value)
      fault(`${at}.downTo.value`, "must be colder than the one before");
    if (step.percent.unit !== "percent") fault(`${at}.percent.unit`, "must be percent");
    if (before && (step.percent.value < before.percent.value || step.time.value < before.time.value))
      fault(at, "a colder night takes no less fuel");
  });
  const pressure = type.gauges.find((g) => g.id === "oilPressure")?.unit;
  if (rule.leastPressure && rule.leastPressure.unit !== pressure)
    fault(`${path}.leastPressure.unit`, `must be ${pressure}`);
}
