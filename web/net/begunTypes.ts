import { api } from "./app.ts";
import type { TypePlace } from "./types.ts";

/** A type that is begun and not finished. `by`: who changed it last. */
export interface BegunRow {
  id: string;
  name: string;
  at: number;
  by: string;
}

/** A begun type as it was entered. `tag` identifies the revision that was read. */
export interface ReadBegun extends BegunRow {
  entered: Readonly<Record<string, unknown>>;
  tag: string;
}

const at = (id: string) => `/api/begun-types/${encodeURIComponent(id)}`;
const tagOf = (response: Response) => response.headers.get("etag") ?? "";

/** Requests about types that are begun from nothing. */
export const begunTypes = {
  list: () => api.pages<BegunRow>("/api/begun-types"),
  async read(id: string): Promise<ReadBegun> {
    const response = await api.send("GET", at(id));
    return { ...((await response.json()) as Omit<ReadBegun, "tag">), tag: tagOf(response) };
  },
  begin: (id: string, name: string, engines: number) =>
    api.json<{ id: string }>("POST", "/api/begun-types", { id, name, engines }),
  save: (id: string, tag: string, entered: unknown) => api.send("PUT", at(id), entered, { "if-match": tag }),
  giveUp: (id: string, tag: string) => api.send("DELETE", at(id), undefined, { "if-match": tag }),
  async finish(id: string, tag: string): Promise<TypePlace> {
    return (await api.send("POST", `${at(id)}/draft`, undefined, { "if-match": tag })).json();
  },
};
