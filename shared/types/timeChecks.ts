import type { Fault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import type { AircraftType, GivenTime } from "./schema.ts";

/**
 * Least seconds of a time in which a person has to look, walk or speak. The project chose them: they only keep a type
 * from asking what nobody can do, and are no limit of an aircraft.
 */
const LEAST: Partial<Record<GivenTime, number>> = {
  clearance: 10,
  readBack: 1,
  stop: 1,
  service: 2,
  guardInPlace: 20,
  arcClear: 20,
  brakes: 60,
  groundPower: 60,
  area: 60,
  weather: 60,
  presenceSeen: 5,
};

/** Least seconds between two steps of a person's silence. The project chose it. */
const LEAST_STEP = 5;

/** Reports times in an impossible order, and times too short for a person. */
export function timeChecks({ timing }: AircraftType, fault: Fault): void {
  for (const [reminder, alert] of [
    ["stop", "stopEscalate"],
    ["service", "serviceEscalate"],
  ] as const) {
    if (timing[alert].value <= timing[reminder].value)
      fault(`timing.${alert}`, faultText("escalatesEarly", timing[alert].value, timing[reminder].value));
  }
  const { clearance, readBack, presenceSeen, presenceHeard, presenceHold } = timing;
  if (clearance.value <= readBack.value)
    fault("timing.clearance", faultText("clearanceTooShort", clearance.value, readBack.value));
  for (const [key, least] of Object.entries(LEAST) as [GivenTime, number][]) {
    const { value } = timing[key];
    if (value < least) fault(`timing.${key}`, faultText("tooShortToAct", value, least));
  }
  if (presenceSeen.value >= presenceHeard.value || presenceHeard.value >= presenceHold.value) return;
  for (const [key, before, at] of [
    ["presenceHeard", presenceSeen, presenceHeard],
    ["presenceHold", presenceHeard, presenceHold],
  ] as const) {
    const apart = at.value - before.value;
    if (apart < LEAST_STEP) fault(`timing.${key}`, faultText("stepsTooClose", apart, LEAST_STEP));
  }
}
