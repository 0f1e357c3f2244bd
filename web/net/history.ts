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

/** How far the demo's invented year is. */
interface YearProgress {
  done: boolean;
  aircraft: string[];
  made: number;
  of: number;
}

const ofAircraft = (id: string) => `/api/aircraft/${encodeURIComponent(id)}`;
const ofEngine = (serial: string) => `/api/engines/${encodeURIComponent(serial)}/history`;

/** Requests about the starts that an aircraft or an engine has made. */
export const histories = {
  aircraft: (id: string) => api.json<AircraftHistory>("GET", `${ofAircraft(id)}/history`),
  engine: (serial: string) => api.json<EngineHistory>("GET", ofEngine(serial)),
  notes: (id: string) => api.json<HistoryNote[]>("GET", `${ofAircraft(id)}/notes`),
  /** Has the demo's invented year made, or sees how far it is. */
  year: () => api.json<YearProgress>("POST", "/api/demo/year", {}),
  /** Path of the starts as a file. */
  file: (of: { aircraft: string } | { serial: string }) =>
    `${"serial" in of ? ofEngine(of.serial) : `${ofAircraft(of.aircraft)}/history`}?as=csv`,
};
