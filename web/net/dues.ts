import { type Due, foremost } from "../../shared/dues/dues.ts";
import type { Inspection } from "../../shared/dues/inspection.ts";
import { api } from "./app.ts";

export interface InspectionRow extends Inspection {
  revision: number;
}

const at = (id: string) => `/api/inspections/${encodeURIComponent(id)}`;
const asRead = (revision: number) => ({ "if-match": `"${revision}"` });

/** Requests about what is due, and about inspections. A change names the revision that was read. */
export const dues = {
  list: async () => (await api.pages<Due>("/api/dues")).sort(foremost),
  calendar: () => api.send("GET", "/api/dues.ics").then((reply) => reply.blob()),
  inspections: () => api.pages<InspectionRow>("/api/inspections"),
  add: (entry: Inspection) => api.send("POST", "/api/inspections", entry),
  change: ({ id, ...entry }: Inspection, revision: number) =>
    api.send("PUT", at(id), entry, asRead(revision)),
  done: (id: string, revision: number, last: NonNullable<Inspection["last"]>, words: string) =>
    api.send("PUT", `${at(id)}/done`, { last, words }, asRead(revision)),
};
