import type { HouseFigures } from "../../shared/history/house/schema.ts";
import type { DefectTrend } from "../../shared/history/lives/defectTrend.ts";
import type { Survival } from "../../shared/history/lives/survival.ts";
import type { HistoryNote } from "../../shared/history/notes.ts";
import type { StartRow } from "../../shared/history/row.ts";
import { api } from "./app.ts";

interface Starts {
  /** Oldest first. */
  rows: StartRow[];
  /** True when older starts were left out. */
  more: boolean;
  notes: HistoryNote[];
}
export type AircraftHistory = Starts & { aircraft: string };
export type EngineHistory = Starts & {
  serial: string;
  fitted: { aircraft: string; n: number; hours: number | null } | null;
};

/** The starts of the house, and how far back they were read. */
export type HouseHistory = HouseFigures & { from: number; to: number; most: number; more: boolean };

/** Lives of equipment, and the extent of the records that they were read from. */
export interface HouseLives {
  all: Survival[];
  most: number;
  more: boolean;
}

/** The thing whose history a file has. */
export type HistoryOf = { aircraft: string } | { serial: string } | { weeks: number };

/** The progress of the demo's invented year. */
interface YearProgress {
  done: boolean;
  aircraft: string[];
  made: number;
  of: number;
}

const ofAircraft = (id: string) => `/api/aircraft/${encodeURIComponent(id)}`;
const ofHouse = (weeks: number) => `/api/house/history?weeks=${weeks}`;
const ofEngine = (serial: string) => `/api/engines/${encodeURIComponent(serial)}/history`;

/** Requests about the starts that an aircraft or an engine has made. */
export const histories = {
  aircraft: (id: string) => api.json<AircraftHistory>("GET", `${ofAircraft(id)}/history`),
  engine: (serial: string) => api.json<EngineHistory>("GET", ofEngine(serial)),
  notes: (id: string) => api.pages<HistoryNote>(`${ofAircraft(id)}/notes`),
  /** Has the demo's invented year made, or sees how far it is. */
  year: () => api.json<YearProgress>("POST", "/api/demo/year", {}),
  house: (weeks: number) => api.json<HouseHistory>("GET", ofHouse(weeks)),
  lives: () => api.json<HouseLives>("GET", "/api/house/lives"),
  defectTrend: (id: string) => api.json<DefectTrend>("GET", `${ofAircraft(id)}/defects/trend`),
  /** Path of the figures as a file. */
  file: (of: HistoryOf) =>
    "weeks" in of
      ? `${ofHouse(of.weeks)}&as=csv`
      : `${"serial" in of ? ofEngine(of.serial) : `${ofAircraft(of.aircraft)}/history`}?as=csv`,
};
