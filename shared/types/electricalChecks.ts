import { chargeFromGravity, chargeFromVolts } from "../models/electrical/battery.ts";
import { badEnvelope } from "../models/electrical/envelope.ts";
import { envelopeOf } from "../models/electrical/envelopeOf.ts";
import { WIRE_TABLE } from "../models/electrical/wireTable.ts";
import { inUnit } from "../models/units.ts";
import { STAGES } from "../protocol/stages.ts";
import type { BatteryData } from "./electrical.ts";
import type { Fault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import { unitOfKind } from "./gaugeChecks.ts";
import type { AircraftType } from "./schema.ts";

/** Checks on ground power, batteries, cable and starter current that the schema cannot express. */
export function electricalChecks(type: AircraftType, fault: Fault): void {
  groundPower(type, fault);
  const rules = type.electrical;
  if (!rules) return;
  const { breakaway, steady } = rules.starter;
  if (breakaway.value < steady.value) {
    fault("electrical.starter.breakaway", "breaking away draws no less than turning");
  }
  const { cart, generator } = rules;
  const ammeter = type.gauges.find((g) => g.id === generator?.gauge);
  if (generator && !ammeter?.perEngine)
    fault("electrical.generator.gauge", "no gauge of that id for each engine");
  else if (generator && ammeter && ammeter.unit !== generator.rating.unit)
    fault("electrical.generator.rating.unit", `must be ${ammeter.unit}`);
  if (cart && !WIRE_TABLE.some((row) => row.size === cart.size)) {
    const sizes = WIRE_TABLE.map((row) => row.size).join(", ");
    fault("electrical.cart.size", `no wire ${cart.size} in AC 43.13-1B Table 11-9: ${sizes}`);
  }
  if (rules.batteries && new Set(rules.batteries.map((b) => b.id)).size !== rules.batteries.length) {
    fault("electrical.batteries", "two batteries have the same id");
  }
  rules.batteries?.forEach((b, i) => {
    const path = `electrical.batteries.${i}`;
    if (b.cell.chemistry === "leadAcid" && b.cell.empty >= b.cell.full) {
      fault(`${path}.cell`, "a charged battery's gravity is above a discharged one's");
    }
    const temperatures = b.ohms.rows.map(([degC]) => degC);
    if (temperatures.some((t, k) => k > 0 && t <= (temperatures[k - 1] ?? t))) {
      fault(`${path}.ohms.rows`, "temperatures must rise");
    }
    const warmer = b.capacityAt?.rows ?? [];
    if (
      warmer.some(
        ([t, share], k) => k > 0 && (t <= (warmer[k - 1]?.[0] ?? t) || share < (warmer[k - 1]?.[1] ?? 0)),
      )
    ) {
      fault(`${path}.capacityAt.rows`, "temperatures must rise, and the capacity with them");
    }
    gravity(type, b, path, fault);
    if (b.check === undefined) return;
    const check = type.checks.find((c) => c.id === b.check);
    if (!check) fault(`${path}.check`, `no check of the id ${b.check}`);
    else if (check.range?.unit !== "V") fault(`${path}.check`, `the check ${b.check} must read volts`);
    else if (b.cell.chemistry === "nickelCadmium") fault(`${path}.check`, faultText("nickelTellsNothing"));
    else
      usable(type, b.check, fault, (volts) =>
        chargeFromVolts(b.cell, volts, RESTED_DEG_C).ok
          ? null
          : faultText("batteryNotRested", volts, b.cell.cells),
      );
  });
}

/** The temperature at which a battery's check is judged, as its model's rule is stated. */
const RESTED_DEG_C = 25;

/**
 * Reports the ends of a check's range that the battery's model cannot turn into a charge.
 * @param why what is wrong with a reading, or null
 */
function usable(
  { checks }: AircraftType,
  id: string,
  fault: Fault,
  why: (reading: number) => string | null,
): void {
  const at = checks.findIndex((c) => c.id === id);
  const range = checks[at]?.range;
  if (!range) return;
  if (range.min === undefined || range.max === undefined)
    fault(`checks.${at}.range`, faultText("batteryNoEnd"));
  for (const end of ["min", "max"] as const) {
    const value = range[end];
    if (value === undefined) continue;
    const wrong = why(value);
    if (wrong) fault(`checks.${at}.range.${end}`, wrong);
  }
}

/**
 * Reports faults of a hydrometer's checks: gravity must be a plain number, its temperature must be in degrees, and the
 * temperature must come first.
 */
function gravity(type: AircraftType, { cell, gravity: rule }: BatteryData, path: string, fault: Fault) {
  if (!rule) return;
  const { checks } = type;
  if (cell.chemistry !== "leadAcid")
    fault(`${path}.gravity`, "only a lead-acid battery's gravity tells its charge");
  const at = (id: string) => checks.findIndex((c) => c.id === id);
  const unit = (id: string) => checks[at(id)]?.range?.unit;
  if (unit(rule.check) !== "count")
    fault(`${path}.gravity.check`, `the check ${rule.check} must read a plain number`);
  else
    usable(type, rule.check, fault, (read) =>
      chargeFromGravity(cell, read).ok ? null : faultText("gravityImpossible", read),
    );
  const degrees = unit(rule.temperature);
  if (degrees !== "degF" && degrees !== "degC")
    fault(`${path}.gravity.temperature`, `the check ${rule.temperature} must read a temperature`);
  else electrolyte(type, at(rule.temperature), degrees, fault);
  const stage = (id: string) => {
    const found = checks[at(id)];
    return found ? STAGES.indexOf(found.stage) : -1;
  };
  if (at(rule.temperature) > at(rule.check) || stage(rule.temperature) > stage(rule.check))
    fault(`${path}.gravity.temperature`, "its check comes before the hydrometer's");
}

/** Temperatures between which a battery's acid is liquid, degC: it freezes near -70 when charged, boils near 110. From memory. */
const LIQUID = { from: -80, to: 115 };

function electrolyte({ checks }: AircraftType, at: number, unit: "degC" | "degF", fault: Fault): void {
  for (const end of ["min", "max"] as const) {
    const value = checks[at]?.range?.[end];
    if (value === undefined) continue;
    const degrees = inUnit({ value, unit }, "degC");
    if (degrees < LIQUID.from || degrees > LIQUID.to)
      fault(`checks.${at}.range.${end}`, faultText("noElectrolyte", value, unit));
  }
}

function groundPower({ groundPower: rules }: AircraftType, fault: Fault): void {
  const { steadyMin, steadyMax, starting, transients } = rules;
  if (steadyMin.value >= steadyMax.value) fault("groundPower", "the lowest volts must be below the highest");
  if (starting && starting.min.value >= starting.max.value) {
    fault("groundPower.starting", "the lowest volts must be below the highest");
  }
  const limits = [
    ["steadyMin", steadyMin],
    ["steadyMax", steadyMax],
    ["starting.min", starting?.min],
    ["starting.max", starting?.max],
  ] as const;
  for (const [path, limit] of limits) {
    if (!limit) continue;
    unitOfKind("V", limit.unit, `groundPower.${path}.unit`, fault);
    if (limit.value <= 0) fault(`groundPower.${path}`, faultText("notPositive", limit.value));
  }
  if (starting && starting.min.value > steadyMin.value)
    fault("groundPower.starting.min", faultText("startingBelow", starting.min.value, steadyMin.value));
  if (!transients) return;
  if (!starting) {
    fault("groundPower.transients", "need the band while an engine is cranked");
    return;
  }
  const envelope = envelopeOf(rules);
  const why = envelope ? badEnvelope(envelope) : "no envelope can be made of these figures";
  if (why) fault("groundPower.transients", why);
}
