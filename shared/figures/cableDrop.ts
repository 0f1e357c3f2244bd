import { wireDrop } from "../models/electrical/wire.ts";
import { inUnit } from "../models/units.ts";
import type { SessionState } from "../session/state.ts";
import { cableInputs } from "./crankingSource.ts";
import { cautions, type Figure, ofType } from "./figure.ts";

/** Returns the volts that the cart's cable loses while a starter turns. */
export function cableDrop(state: SessionState): Figure | null {
  const rules = state.type.electrical;
  const cart = rules?.cart;
  if (!rules || !cart) return null;
  const run = { feet: inUnit(cart.length, "ft"), amps: rules.starter.steady.value };
  const drop = wireDrop(cart.size, run, cart.parallel);
  const most = cart.mostDrop;
  return {
    id: "cableDrop",
    words: "cableDrop",
    value: drop.ok ? drop.value : null,
    unit: "V",
    verdict: !drop.ok ? "unknown" : !most ? "none" : drop.value > most.value ? "bad" : "good",
    inputs: [
      ...cableInputs(cart),
      ofType("cranking current", rules.starter.steady),
      ...(most ? [ofType("most it may lose", most)] : []),
    ],
    equation: "VD = ohms per foot x feet x amperes / conductors",
    source:
      "AC 43.13-1B para 11-66 and Table 11-9, conductor at 20 degC; the table's ohms have two digits, about 8 %",
    ...cautions(!drop.ok && drop.why),
  };
}
