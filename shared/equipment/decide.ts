import type { Action } from "../protocol/commands.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";

/** Decides on a label that was read at the stand: the register must have it, and the house must let it be used. */
export function decideEquipment(
  { label }: Extract<Action, { type: "showEquipment" }>,
  { equipment }: Context,
): Verdict {
  if (equipment?.facts.id !== label) return refuse("noSuchEquipment", { found: label });
  if (equipment.barred) return refuse("equipmentBarred", { found: label });
  return accept({ type: "equipmentShown", equipment: equipment.facts });
}
