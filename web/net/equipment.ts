import type { EquipmentFault } from "../../shared/house/due.ts";
import type { HouseEquipment } from "../../shared/house/equipment.ts";
import type { OverdueRules } from "../../shared/house/house.ts";
import type { OutCause } from "../../shared/protocol/equipmentKinds.ts";
import { api } from "./app.ts";

/** A piece of equipment as the register has it now, and what speaks against it, the worst first. */
export interface RegisteredEquipment {
  body: HouseEquipment;
  revision: number;
  faults: EquipmentFault[];
}

export interface EquipmentChange {
  revision: number;
  /** Server milliseconds. */
  at: number;
  by: string;
  reason: string | null;
  body: HouseEquipment;
}

export interface HouseSettings {
  name: string;
  overdue: OverdueRules;
  /** Another person than the one who mended a defect must inspect it. */
  inspectsDefects: boolean;
  revision: number;
}

const at = (id: string) => `/api/equipment/${encodeURIComponent(id)}`;
const asRead = (revision: number) => ({ "if-match": `"${revision}"` });

/** Requests about the equipment in the house's register. A change names the revision that was read. */
export const equipment = {
  list: () => api.pages<RegisteredEquipment>("/api/equipment"),
  one: (id: string) => api.json<RegisteredEquipment>("GET", at(id)),
  changes: (id: string) => api.json<EquipmentChange[]>("GET", `${at(id)}/changes`),
  add: (entry: HouseEquipment) => api.send("POST", "/api/equipment", entry),
  change: (entry: HouseEquipment, revision: number) => api.send("PUT", at(entry.id), entry, asRead(revision)),
  setOut: (id: string, revision: number, out: OutCause | null, reason: string) =>
    api.send("PUT", `${at(id)}/out`, { out, reason }, asRead(revision)),
};

/** Requests about the house's name and rules. */
export const settings = {
  read: () => api.json<HouseSettings>("GET", "/api/house/settings"),
  change: ({ revision, ...to }: HouseSettings) =>
    api.send("PUT", "/api/house/settings", to, asRead(revision)),
};
