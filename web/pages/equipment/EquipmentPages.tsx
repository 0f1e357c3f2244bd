import "../../styles/equipment.css";
import "../../styles/register.css";
import type { Me } from "../../net/keep.ts";
import { AddEquipment } from "./AddEquipment.tsx";
import { EquipmentList } from "./EquipmentList.tsx";
import { EquipmentPage } from "./EquipmentPage.tsx";

/** The pages of the equipment in the house's register. `id`: null for the list, `new` for the entry of a new piece. */
export function EquipmentPages({ id, me, changed }: { id: string | null; me: Me; changed: number }) {
  if (id === null) return <EquipmentList me={me} changed={changed} />;
  return id === "new" ? <AddEquipment /> : <EquipmentPage key={id} id={id} me={me} />;
}
