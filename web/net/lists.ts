import type { CsvFault } from "../../shared/house/lists/csv.ts";
import type { ListChange, ListKind } from "../../shared/house/lists/list.ts";
import { api } from "./app.ts";
import type { Sure } from "./sure.ts";

/** The changes that a file would make, and its faults. */
export interface JudgedList {
  rows: ListChange[];
  faults: CsvFault[];
  /** Sent back to have it done. */
  tag: string;
}

const at = (kind: ListKind) => `/api/house/lists/${kind}`;

/** Requests about the house's lists as files. */
export const lists = {
  save: async (kind: ListKind): Promise<Blob> => (await api.send("GET", at(kind))).blob(),
  judge: (kind: ListKind, csv: string) => api.json<JudgedList>("POST", `${at(kind)}/judgement`, { csv }),
  take: (kind: ListKind, csv: string, tag: string, sure: Sure | undefined) =>
    api.json<JudgedList>("POST", at(kind), { csv, tag, ...sure }),
};
