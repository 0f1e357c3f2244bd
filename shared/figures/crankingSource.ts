import { chargeFromVolts, openCircuitVolts } from "../models/electrical/battery.ts";
import { internalOhmAt, type Source } from "../models/electrical/sag.ts";
import { wireDrop } from "../models/electrical/wire.ts";
import { found, type Outcome, refused } from "../models/outcome.ts";
import { inUnit } from "../models/units.ts";
import { airTemperature } from "../session/air.ts";
import type { SessionState } from "../session/state.ts";
import type { BatteryData, ElectricalRules } from "../types/electrical.ts";
import { type FigureInput, notRead, ofType, ofTypeData, read, said } from "./figure.ts";
import { airInput, TEMPERATURE_NOT_READ } from "./temperature.ts";

/** What cranks now: ground power while it is on, else the batteries together. */
export interface CrankingSource {
  from: "groundPower" | "batteries";
  source: Source;
  inputs: FigureInput[];
  caution: string | null;
}

/** One battery now: charge 0 to 1, volts on no load and ohms at the air's temperature. */
export interface BatteryNow {
  data: BatteryData;
  charge: number;
  openCircuit: number;
  ohm: number;
  degC: number;
}

export function crankingSource(state: SessionState, rules: ElectricalRules): Outcome<CrankingSource> {
  return state.groundPower.is === "on" ? fromCart(state, rules) : fromBatteries(state, rules);
}

function fromCart(state: SessionState, { cart }: ElectricalRules): Outcome<CrankingSource> {
  const power = state.groundPower;
  if (power.is !== "on") return refused("ground power is not on");
  if (!cart) return refused("the type gives no cart cable");
  const ohm = cableOhm(cart);
  if (!ohm.ok) return ohm;
  const stiff = cart.internalOhm === undefined;
  return found({
    from: "groundPower",
    source: {
      openCircuit: inUnit(power.volts, "V"),
      internalOhm: cart.internalOhm?.value ?? 0,
      cableOhm: ohm.value,
    },
    inputs: [
      said("ground power volts, steady", power.volts, power.by),
      ...(cart.internalOhm ? [ofType("ohms inside the cart", cart.internalOhm)] : []),
      ...cableInputs(cart),
    ],
    caution: stiff ? "The cart counts as stiff: its own droop is not known." : null,
  });
}

export function cableInputs(cart: NonNullable<ElectricalRules["cart"]>): FigureInput[] {
  return [
    ofTypeData(`cart cable ${cart.size}, side by side`, cart.parallel, cart.source, "count"),
    ofType("cable, out and back", cart.length),
  ];
}

/** Ohms of the cart's cable, out and back: the drop of one ampere. */
export function cableOhm(cart: NonNullable<ElectricalRules["cart"]>): Outcome<number> {
  return wireDrop(cart.size, { feet: inUnit(cart.length, "ft"), amps: 1 }, cart.parallel);
}

/** Equal to sources side by side: 1/R is the sum of 1/Ri, and the volts are Ri's share of each. */
function fromBatteries(state: SessionState, rules: ElectricalRules): Outcome<CrankingSource> {
  const now = batteriesNow(state, rules);
  if (!now.ok) return now;
  const conductance = now.value.reduce((sum, b) => sum + 1 / b.ohm, 0);
  const openCircuit = now.value.reduce((sum, b) => sum + b.openCircuit / b.ohm, 0) / conductance;
  return found({
    from: "batteries",
    source: { openCircuit, internalOhm: 1 / conductance, cableOhm: rules.leadOhm?.value ?? 0 },
    inputs: batteryInputs(state, rules),
    caution: batteryCaution(state, rules),
  });
}

export function batteryInputs(state: SessionState, rules: ElectricalRules): FigureInput[] {
  return [
    ...(rules.batteries ?? []).flatMap((b) => {
      const record = b.check === undefined ? undefined : state.checks[b.check];
      const volts = record?.reading ? { ...record.reading, at: record.at, name: record.name } : null;
      return [
        read(`${b.name}, volts at rest`, volts),
        ofTypeData(
          `${b.name}, ohms from ${b.ohms.rows[0]?.[0]} degC up`,
          b.ohms.rows.map(([, r]) => r).join(", "),
          b.ohms.source,
          "ohm",
        ),
      ];
    }),
    ...(rules.leadOhm ? [ofType("leads to the bus", rules.leadOhm)] : [notRead("leads to the bus")]),
    airInput(state),
  ];
}

export function batteryCaution(state: SessionState, rules: ElectricalRules): string | null {
  const texts = [
    airTemperature(state) ? null : TEMPERATURE_NOT_READ,
    rules.leadOhm ? null : "Nothing is counted for the leads: the type does not say.",
  ];
  return texts.filter((t) => t !== null).join(" ") || null;
}

/** Every battery of the type as it is now; refused while one's charge cannot be told. */
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
  const reading = data.check === undefined ? undefined : state.checks[data.check]?.reading;
  if (!reading) return refused("its volts at rest have not been read");
  const coldest = data.ohms.rows[0]?.[0] ?? 0;
  const degC = airTemperature(state)?.value ?? coldest;
  const ohm = internalOhmAt(data.ohms.rows, degC);
  if (!ohm.ok) return ohm;
  const charge = chargeFromVolts(data.cell, inUnit(reading, "V"), degC);
  if (!charge.ok) return charge;
  const openCircuit = openCircuitVolts(data.cell, charge.value, degC);
  if (!openCircuit.ok) return openCircuit;
  return found({ data, charge: charge.value, openCircuit: openCircuit.value, ohm: ohm.value, degC });
}
