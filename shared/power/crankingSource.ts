import { gravityNow } from "../checks/gravity.ts";
import { type CartRules, cartRules } from "../equipment/cart.ts";
import { chargeFromVolts, openCircuitVolts } from "../models/electrical/battery.ts";
import { busVolts, internalOhmAt, type Source, sideBySide } from "../models/electrical/sag.ts";
import { wireDrop } from "../models/electrical/wire.ts";
import { found, type Outcome, refused } from "../models/outcome.ts";
import { inUnit } from "../models/units.ts";
import type { SessionState } from "../session/state.ts";
import type { BatteryData, ElectricalRules } from "../types/electrical.ts";
import { airTemperature } from "../weather/air.ts";

const LOADED = "its volts were read under load or on charge, not at rest";

/** One battery now: charge 0 to 1, volts without load, and ohms at the air's temperature. */
export interface BatteryNow {
  data: BatteryData;
  charge: number;
  openCircuit: number;
  ohm: number;
  degC: number;
}

/** Returns the lowest volts to expect when a starter breaks away on the present power source. */
export function voltsExpected(state: SessionState): Outcome<number> {
  const rules = state.type.electrical;
  if (!rules) return refused("the type gives no starter's current");
  const source = crankingSource(state, rules);
  return source.ok ? busVolts(source.value, rules.starter.breakaway.value) : source;
}

/** Returns the source that cranks now: ground power while it is on, else the batteries together. */
export function crankingSource(state: SessionState, rules: ElectricalRules): Outcome<Source> {
  return state.groundPower.is === "on" ? fromCart(state) : fromBatteries(state, rules);
}

function fromCart(state: SessionState): Outcome<Source> {
  const power = state.groundPower;
  const cart = cartRules(state);
  if (power.is !== "on") return refused("ground power is not on");
  if (!cart) return refused("the type gives no cart cable");
  const ohm = cableOhm(cart);
  if (!ohm.ok) return ohm;
  return found({
    openCircuit: inUnit(power.volts, "V"),
    internalOhm: cart.internalOhm?.value ?? 0,
    cableOhm: ohm.value,
  });
}

/** Returns the ohms of the cart's cable, out and back: the drop at one ampere. */
function cableOhm(cart: CartRules): Outcome<number> {
  return wireDrop(cart.size, { feet: inUnit(cart.length, "ft"), amps: 1 }, cart.parallel);
}

function fromBatteries(state: SessionState, rules: ElectricalRules): Outcome<Source> {
  const now = batteriesNow(state, rules);
  return now.ok ? found(sideBySide(now.value, rules.leadOhm?.value ?? 0)) : now;
}

/** Returns every battery of the type as it is now; refused while the charge of one is unknown. */
export function batteriesNow(state: SessionState, rules: ElectricalRules): Outcome<BatteryNow[]> {
  if (!rules.batteries) return refused("the type gives no batteries");
  const all: BatteryNow[] = [];
  for (const data of rules.batteries) {
    const one = batteryNow(state, data);
    if (!one.ok) return refused(`${data.name}: ${one.why}`);
    all.push(one.value);
  }
  return found(all);
}

function batteryNow(state: SessionState, data: BatteryData): Outcome<BatteryNow> {
  const coldest = data.ohms.rows[0]?.[0] ?? 0;
  const degC = airTemperature(state)?.value ?? coldest;
  const ohm = internalOhmAt(data.ohms.rows, degC);
  if (!ohm.ok) return ohm;
  const charge = chargeNow(state, data, degC);
  if (!charge.ok) return charge;
  const openCircuit = openCircuitVolts(data.cell, charge.value, degC);
  if (!openCircuit.ok) return openCircuit;
  return found({ data, charge: charge.value, openCircuit: openCircuit.value, ohm: ohm.value, degC });
}

/**
 * Returns the charge from the volts at rest or from the hydrometer; from both, the lower one. Volts that were read while
 * the battery carried a load, or was charged, are not volts at rest.
 */
function chargeNow(state: SessionState, data: BatteryData, degC: number): Outcome<number> {
  const record = data.check === undefined ? undefined : state.checks[data.check];
  const reading = record?.reading;
  if (reading && record.loaded) return refused(LOADED);
  const byVolts = reading ? chargeFromVolts(data.cell, inUnit(reading, "V"), degC) : null;
  const gravity = gravityNow(state, data);
  if (gravity && !gravity.ok) return gravity;
  if (byVolts && !byVolts.ok) return byVolts;
  const told = [byVolts?.value, gravity?.value.charge].filter((c) => c !== undefined);
  return told.length === 0 ? refused("its volts at rest have not been read") : found(Math.min(...told));
}
