import { cartOf, cartRules } from "../equipment/cart.ts";
import { wireDrop } from "../models/electrical/wire.ts";
import { WIRE_TABLE } from "../models/electrical/wireTable.ts";
import { inUnit } from "../models/units.ts";
import type { Cart } from "../protocol/equipment.ts";
import type { SessionState } from "../session/state.ts";
import type { ElectricalRules } from "../types/electrical.ts";
import { cableInputs } from "./crankingSource.ts";
import { cautions, type Figure, type FigureInput, ofType } from "./figure.ts";

/** Returns the volts that the cart's cable loses while a starter turns, and remarks amperes that are too many. */
export function cableDrop(state: SessionState): Figure | null {
  const rules = state.type.electrical;
  const cart = cartRules(state);
  if (!rules || !cart) return null;
  const amps = rules.starter.steady.value;
  const drop = wireDrop(cart.size, { feet: inUnit(cart.length, "ft"), amps }, cart.parallel);
  const most = cart.mostDrop;
  const own = cartOf(state);
  const beyond = own ? tooMuchForCart(own, rules) : [];
  const verdict = beyond.length > 0 ? "caution" : most ? "good" : "none";
  return {
    id: "cableDrop",
    words: "cableDrop",
    value: drop.ok ? drop.value : null,
    unit: "V",
    verdict: !drop.ok ? "unknown" : most && drop.value > most.value ? "bad" : verdict,
    inputs: [
      ...cableInputs(cart),
      ofType("cranking current", rules.starter.steady),
      ...(own ? cartInputs(own) : []),
      ...(most ? [ofType("most it may lose", most)] : []),
    ],
    equation: "VD = ohms per foot x feet x amperes / conductors",
    source:
      "AC 43.13-1B para 11-66 and Table 11-9, conductor at 20 degC; the table's ohms have two digits, about 8 %",
    ...cautions(!drop.ok && drop.why, tooMuchForCable(cart.size, amps / cart.parallel), ...beyond),
  };
}

/** Insulation rating by which a cable is judged: the lowest, because nobody entered its own. */
const RATING = 105;

/** Returns a remark when one conductor carries more than the table lets it carry all the time. */
function tooMuchForCable(size: string, amps: number): string | null {
  const most = WIRE_TABLE.find((row) => row.size === size)?.amps[RATING];
  if (most === undefined || amps <= most) return null;
  return `${Math.round(amps)} A go through one cable of size ${size}: the table lets it carry ${most} A all the time, so keep the cranking short.`;
}

/** Returns a remark for each current that the house's cart is not made for. */
function tooMuchForCart({ id, continuousA, peakA }: Cart, { starter }: ElectricalRules): string[] {
  const [first, then] = [starter.breakaway.value, starter.steady.value];
  return [
    ...(first > peakA ? [`The starter breaks away with ${first} A: ${id} gives ${peakA} A at most.`] : []),
    ...(then > continuousA
      ? [`The starter turns with ${then} A: ${id} gives ${continuousA} A all the time.`]
      : []),
  ];
}

function cartInputs({ id, name, continuousA, peakA }: Cart): FigureInput[] {
  const source = `the house's register: ${id}, ${name}`;
  return [
    { name: "amperes of the cart all the time", value: continuousA, unit: "A", source, at: null },
    { name: "amperes of the cart at its peak", value: peakA, unit: "A", source, at: null },
  ];
}
