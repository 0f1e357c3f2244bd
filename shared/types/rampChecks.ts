import { precedenceSets } from "../models/order/precedence.ts";
import { convert } from "../models/units.ts";
import type { Fault } from "./fault.ts";
import type { AircraftType } from "./schema.ts";

/** Reports faults of order, wind and the ground around that the schema cannot express. */
export function rampChecks(type: AircraftType, fault: Fault): void {
  order(type, fault);
  const { max, gustMax } = type.wind;
  if (gustMax.value < max.value) fault("wind.gustMax", "a gust's limit cannot be below the wind's");
  guard(type, fault);
}

function order({ order: rules, engines, defaultOrder }: AircraftType, fault: Fault): void {
  if (!rules) return;
  const sets = precedenceSets(
    engines.map((e) => e.n),
    rules.mustPrecede,
  );
  if (!sets.ok) fault("order.mustPrecede", sets.why);
  rules.mustPrecede.forEach(({ before, after }, i) => {
    const [first, second] = [defaultOrder.indexOf(before), defaultOrder.indexOf(after)];
    if (first > second && second >= 0) {
      fault(`order.mustPrecede.${i}`, `the default order starts ${after} before ${before}`);
    }
  });
  const driven = new Set(engines.flatMap((e) => e.accessories));
  rules.needs.forEach(({ accessory }, i) => {
    if (!driven.has(accessory)) fault(`order.needs.${i}.accessory`, `no engine drives ${accessory}`);
  });
  if (!driven.has(rules.powerAccessory)) {
    fault("order.powerAccessory", `no engine drives ${rules.powerAccessory}`);
  }
}

function guard({ ramp }: AircraftType, fault: Fault): void {
  const rules = ramp?.guard;
  if (!rules) return;
  if (rules.stream && !ramp?.jet) fault("ramp.guard.stream", "needs the jet's figures");
  const metres = (key: "standOff" | "ahead" | "aheadMost" | "arcMargin") => {
    const length = convert(rules[key], "m");
    return length.ok ? length.value.value : Number.NaN;
  };
  if (metres("ahead") > metres("aheadMost")) {
    fault("ramp.guard.ahead", "the usual place lies farther ahead than the farthest allowed");
  }
  if (metres("standOff") < metres("arcMargin")) {
    fault("ramp.guard.standOff", "the guard would stand within the margin kept from a turning disc");
  }
}
