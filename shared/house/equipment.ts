import { z } from "zod";
import { WIRE_TABLE } from "../models/electrical/wireTable.ts";
import { EQUIPMENT_SHAPES, type Equipment } from "../protocol/equipment.ts";
import { OUT_CAUSES } from "../protocol/equipmentKinds.ts";
import { line } from "../protocol/text.ts";
import type { EntryFault } from "./faults.ts";

/** Fields that the register keeps of each piece besides its facts. */
const kept = {
  /** The place where it is kept. */
  place: line(60).nullable(),
  notes: line(500).nullable(),
  /** Null while it is in service. */
  out: z.strictObject({ cause: z.enum(OUT_CAUSES), words: line(200) }).nullable(),
};

/** One piece of equipment of the house, as its register holds it. */
export const houseEquipmentSchema = z.discriminatedUnion("kind", [
  EQUIPMENT_SHAPES.cart.extend(kept),
  EQUIPMENT_SHAPES.extinguisher.extend(kept),
  EQUIPMENT_SHAPES.chocks.extend(kept),
  EQUIPMENT_SHAPES.towBar.extend(kept),
  EQUIPMENT_SHAPES.headset.extend(kept),
]);
export type HouseEquipment = z.infer<typeof houseEquipmentSchema>;
export type OutOfService = NonNullable<HouseEquipment["out"]>;

/** Returns the facts that a session's record takes over. */
export function factsOf({ place: _place, notes: _notes, out: _out, ...facts }: HouseEquipment): Equipment {
  return facts;
}

/** Returns what is wrong with an entry by itself: a cable of no known size, or a peak below the steady amperes. */
export function equipmentFaults(entry: HouseEquipment): EntryFault[] {
  if (entry.kind !== "cart") return [];
  const faults: EntryFault[] = [];
  if (!WIRE_TABLE.some(({ size }) => size === entry.cable.size)) {
    const sizes = WIRE_TABLE.map(({ size }) => size).join(", ");
    faults.push({
      path: "cable.size",
      message: `no wire ${entry.cable.size} in AC 43.13-1B Table 11-9: ${sizes}`,
    });
  }
  if (entry.peakA < entry.continuousA) {
    const message = `${entry.peakA} A is below the ${entry.continuousA} A that it gives all the time`;
    faults.push({ path: "peakA", message });
  }
  return faults;
}
