import type { EquipmentKind } from "../../protocol/equipmentKinds.ts";
import type { HouseEquipment } from "../equipment.ts";
import { figureIn, textIn, written } from "./list.ts";

/** Columns that only one kind has. */
const OWN = {
  cart: ["volts", "continuousA", "peakA", "size", "metres", "parallel", "internalOhm"],
  extinguisher: ["agent", "chargeKg", "weighedUntil"],
  chocks: [],
  towBar: [],
  headset: [],
} as const satisfies Record<EquipmentKind, readonly string[]>;

/** The columns of the list of equipment. `out`: why it is out of service; that is changed on its page alone. */
export const EQUIPMENT_COLUMNS: readonly string[] = [
  ...["label", "kind", "name", "place", "testedUntil"],
  ...Object.values(OWN).flat(),
  ...["notes", "out"],
];

type Cells = Readonly<Record<string, string>>;

export function equipmentCells(piece: HouseEquipment): Record<string, string> {
  const { id, kind, name, place, testedUntil, notes, out } = piece;
  const all = Object.fromEntries(EQUIPMENT_COLUMNS.map((c) => [c, ""]));
  const common = { label: id, kind, name, place: written(place), testedUntil: written(testedUntil) };
  const rest = { ...common, notes: written(notes), out: out ? `${out.cause}: ${out.words}` : "" };
  if (piece.kind === "extinguisher") {
    const { agent, chargeKg, weighedUntil } = piece;
    return { ...all, ...rest, agent, chargeKg: written(chargeKg), weighedUntil: written(weighedUntil) };
  }
  if (piece.kind !== "cart") return { ...all, ...rest };
  const { volts, continuousA, peakA, cable, internalOhm } = piece;
  return {
    ...{ ...all, ...rest, volts: written(volts), continuousA: written(continuousA), peakA: written(peakA) },
    ...{ size: cable.size, metres: written(cable.metres), parallel: written(cable.parallel) },
    internalOhm: written(internalOhm),
  };
}

/** Returns the entry that the cells describe, to be checked. */
export function equipmentIn(cells: Cells, out: HouseEquipment["out"]): unknown {
  const { label, kind, name } = cells;
  const common = {
    ...{ id: label, kind, name, place: textIn(cells.place), notes: textIn(cells.notes), out },
    testedUntil: textIn(cells.testedUntil),
  };
  if (kind === "extinguisher") {
    const { agent, weighedUntil } = cells;
    return { ...common, agent, chargeKg: figureIn(cells.chargeKg), weighedUntil: textIn(weighedUntil) };
  }
  if (kind !== "cart") return common;
  const { size, metres, parallel } = cells;
  return {
    ...{ ...common, volts: figureIn(cells.volts), continuousA: figureIn(cells.continuousA) },
    ...{ peakA: figureIn(cells.peakA), internalOhm: figureIn(cells.internalOhm) },
    cable: { size, metres: figureIn(metres), parallel: figureIn(parallel) ?? 1 },
  };
}

/** Returns the columns that hold something although pieces of this kind have no such figure. */
export function strangeCells(cells: Cells): string[] {
  const own: readonly string[] = Object.hasOwn(OWN, cells.kind ?? "") ? OWN[cells.kind as EquipmentKind] : [];
  const others = Object.values(OWN).flat() as string[];
  return others.filter((column) => !own.includes(column) && (cells[column] ?? "") !== "");
}
