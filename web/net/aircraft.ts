import type { DefectLife } from "../../shared/defects/lives.ts";
import type { LifePicture } from "../../shared/defects/pictures.ts";
import type { HouseAircraft } from "../../shared/house/aircraft.ts";
import type { PlanBar } from "../../shared/house/planBar.ts";
import { api } from "./app.ts";

/** An aircraft as the register has it now. */
export interface RegisteredAircraft extends HouseAircraft {
  revision: number;
  typeName: string;
  /** The approved version of its type; null when none is. */
  newest: number | null;
  /** The reason why it cannot be planned; null when it can. */
  bar: PlanBar | null;
}

/** An aircraft as it is entered. */
export type AircraftEntry = Omit<HouseAircraft, "retired">;

export interface RegisterChange {
  revision: number;
  /** Server milliseconds. */
  at: number;
  by: string;
  reason: string | null;
  body: HouseAircraft;
}

/** A defect, which of its pictures are kept, and how often the same words were written before at the same place. */
export interface DefectRow extends DefectLife {
  pictures: readonly (LifePicture & { kept: boolean })[];
  before: number;
}

export interface NewHours {
  n: number;
  engine: number | null;
  propeller: number | null;
}

const at = (id: string) => `/api/aircraft/${encodeURIComponent(id)}`;
const asRead = (revision: number) => ({ "if-match": `"${revision}"` });

/** Requests about the aircraft in the house's register. A change names the revision that was read. */
export const aircraft = {
  list: () => api.pages<RegisteredAircraft>("/api/aircraft"),
  one: (id: string) => api.json<RegisteredAircraft>("GET", at(id)),
  changes: (id: string) => api.json<RegisterChange[]>("GET", `${at(id)}/changes`),
  add: (entry: AircraftEntry) => api.send("POST", "/api/aircraft", entry),
  change: ({ id, ...entry }: AircraftEntry, revision: number, reason: string | null) =>
    api.send("PUT", at(id), { ...entry, reason }, asRead(revision)),
  defects: (id: string) => api.pages<DefectRow>(`${at(id)}/defects`),
  retire: (id: string, revision: number, retired: boolean, reason: string) =>
    api.send("PUT", `${at(id)}/retired`, { retired, reason }, asRead(revision)),
  hours: (id: string, revision: number, hours: NewHours[]) =>
    api.send("POST", `${at(id)}/hours`, { hours }, asRead(revision)),
};
