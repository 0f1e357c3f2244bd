import type { HouseEquipment } from "../../../shared/house/equipment.ts";
import { type EquipmentKind, isLabel } from "../../../shared/protocol/equipmentKinds.ts";

/** The fields of a piece of equipment, as typed. Those of another kind stay empty. */
export const FIELDS = [
  "id",
  "name",
  "place",
  "notes",
  "testedUntil",
  "weighedUntil",
  "agent",
  "chargeKg",
  "volts",
  "continuousA",
  "peakA",
  "size",
  "metres",
  "parallel",
  "internalOhm",
] as const;
export type Field = (typeof FIELDS)[number];
export type EquipmentText = Record<Field, string>;

export const NOTHING = {
  ...(Object.fromEntries(FIELDS.map((f) => [f, ""])) as EquipmentText),
  parallel: "1",
};

export function textOfEquipment(entry: HouseEquipment): EquipmentText {
  const { id, name } = entry;
  const written = (value: string | number | null) => (value ?? "").toString();
  const common = {
    ...NOTHING,
    ...{ id, name, place: written(entry.place), notes: written(entry.notes) },
    testedUntil: written(entry.testedUntil),
  };
  if (entry.kind === "extinguisher")
    return {
      ...common,
      ...{ agent: entry.agent, chargeKg: written(entry.chargeKg), weighedUntil: written(entry.weighedUntil) },
    };
  if (entry.kind !== "cart") return common;
  const { volts, continuousA, peakA, cable, internalOhm } = entry;
  return {
    ...common,
    ...{ volts: written(volts), continuousA: written(continuousA), peakA: written(peakA) },
    ...{ size: cable.size, metres: written(cable.metres), parallel: written(cable.parallel) },
    internalOhm: written(internalOhm),
  };
}

/** Returns the figure as typed, with a decimal comma or point; null when it is none. */
function figureIn(text: string): number | null {
  const typed = text.trim().replace(",", ".");
  const value = Number(typed);
  return typed === "" || !Number.isFinite(value) || value < 0 ? null : value;
}

/** Returns the entry to send; null while something needed is missing or is no figure. */
export function entryOf(kind: EquipmentKind, text: EquipmentText): HouseEquipment | null {
  const orNull = (value: string) => (value.trim() === "" ? null : value.trim());
  const name = text.name.trim();
  if (!isLabel(text.id) || name === "") return null;
  const common = {
    ...{ id: text.id, name, place: orNull(text.place), notes: orNull(text.notes), out: null },
    testedUntil: orNull(text.testedUntil),
  };
  switch (kind) {
    case "cart": {
      const [volts, continuousA, peakA] = [text.volts, text.continuousA, text.peakA].map(figureIn);
      const [metres, parallel] = [text.metres, text.parallel].map(figureIn);
      const internalOhm = figureIn(text.internalOhm);
      if (!volts || !continuousA || !peakA || !metres || !parallel || text.size === "") return null;
      if (text.internalOhm.trim() !== "" && internalOhm === null) return null;
      const cable = { size: text.size, metres, parallel };
      return { ...common, kind, volts, continuousA, peakA, cable, internalOhm };
    }
    case "extinguisher": {
      const chargeKg = figureIn(text.chargeKg);
      const agent = text.agent.trim();
      if (!chargeKg || agent === "") return null;
      return { ...common, kind, agent, chargeKg, weighedUntil: orNull(text.weighedUntil) };
    }
    case "chocks":
    case "towBar":
    case "headset":
      return { ...common, kind };
  }
}
