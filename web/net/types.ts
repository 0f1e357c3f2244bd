import type { AircraftType } from "../../shared/types/schema.ts";
import { api } from "./app.ts";

export interface TypeRow {
  id: string;
  version: number;
  name: string;
  status: "draft" | "approved" | "superseded";
  author: string;
  approvedBy: string | null;
  approvedAt: number | null;
  changedAt: number;
}

/** One version of a type as it was read. `tag` identifies its revision. */
export interface ReadType {
  type: AircraftType;
  tag: string;
}

export interface TypePlace {
  id: string;
  version: number;
}

const at = ({ id, version }: TypePlace) => `/api/types/${encodeURIComponent(id)}/${version}`;
const tagOf = (response: Response) => response.headers.get("etag") ?? "";

/** Requests about aircraft types. */
export const types = {
  list: () => api.pages<TypeRow>("/api/types"),
  schema: () => api.json<Record<string, unknown>>("GET", "/api/types/schema"),
  async read(place: TypePlace): Promise<ReadType> {
    const response = await api.send("GET", at(place));
    return { type: (await response.json()) as AircraftType, tag: tagOf(response) };
  },
  draft: ({ id, version }: TypePlace) =>
    api.json<TypePlace>("POST", `/api/types/${encodeURIComponent(id)}/drafts`, { from: version }),
  begin: (id: string, name: string, from: TypePlace) =>
    api.json<TypePlace>("POST", "/api/types", { id, name, from }),
  import: (file: unknown) => api.json<TypePlace>("POST", "/api/types/import", file),
  /** Saves a draft and resolves to its new tag. */
  async save(place: TypePlace, tag: string, type: unknown): Promise<string> {
    return tagOf(await api.send("PUT", at(place), type, { "if-match": tag }));
  },
  approve: (place: TypePlace, tag: string, pin: string) =>
    api.send("POST", `${at(place)}/approval`, { pin }, { "if-match": tag }),
  discard: (place: TypePlace, tag: string) => api.send("DELETE", at(place), undefined, { "if-match": tag }),
  export: async (place: TypePlace): Promise<Blob> => (await api.send("GET", `${at(place)}/export`)).blob(),
};
