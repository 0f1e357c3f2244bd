import { gravityNow } from "../checks/gravity.ts";
import { type CartRules, cartRules } from "../equipment/cart.ts";
import type { SessionState } from "../session/state.ts";
import type { BatteryData, ElectricalRules } from "../types/electrical.ts";
import { airTemperature } from "../weather/air.ts";
import { type FigureInput, notRead, ofType, ofTypeData, read, said } from "./figure.ts";
import { airInput, TEMPERATURE_NOT_READ } from "./temperature.ts";

/** Returns the known inputs of the source that cranks now. */
export function sourceInputs(state: SessionState, rules: ElectricalRules): FigureInput[] {
  const power = state.groundPower;
  if (power.is !== "on") return batteryInputs(state, rules);
  const cart = cartRules(state);
  return [
    said("ground power volts, steady", power.volts, power.by),
    ...(cart?.internalOhm ? [ofType("ohms inside the cart", cart.internalOhm)] : []),
    ...(cart ? cableInputs(cart) : []),
  ];
}

export function sourceCaution(state: SessionState, rules: ElectricalRules): string | null {
  if (state.groundPower.is !== "on") return batteryCaution(state, rules);
  const stiff = cartRules(state)?.internalOhm === undefined;
  return stiff ? "The cart counts as stiff: its own droop is not known." : null;
}

export function cableInputs(cart: CartRules): FigureInput[] {
  return [
    ofTypeData(`cart cable ${cart.size}, side by side`, cart.parallel, cart.source, "count"),
    ofType("cable, out and back", cart.length),
  ];
}

export function batteryInputs(state: SessionState, rules: ElectricalRules): FigureInput[] {
  return [
    ...(rules.batteries ?? []).flatMap((b) => {
      const record = b.check === undefined ? undefined : state.checks[b.check];
      const volts = record?.reading ? { ...record.reading, at: record.at, name: record.name } : null;
      return [
        read(`${b.name}, volts at rest`, volts),
        ...gravityInput(state, b),
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

function gravityInput(state: SessionState, battery: BatteryData): FigureInput[] {
  const now = gravityNow(state, battery);
  const record = battery.gravity && state.checks[battery.gravity.check];
  if (!now?.ok || !record) return [];
  const value = { value: Number(now.value.at80F.toFixed(4)), unit: "count" as const };
  return [read(`${battery.name}, gravity at 80 degF`, { ...value, at: record.at, name: record.name })];
}

export function batteryCaution(state: SessionState, rules: ElectricalRules): string | null {
  const texts = [
    airTemperature(state) ? null : TEMPERATURE_NOT_READ,
    rules.leadOhm ? null : "Nothing is counted for the leads: the type does not say.",
  ];
  return texts.filter((t) => t !== null).join(" ") || null;
}
