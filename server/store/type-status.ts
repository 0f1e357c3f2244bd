import type { TypeStatus } from "./directory.ts";

interface Row {
  id: string;
  version: number;
  status: string;
}

/** The status of each version beside the others of its type, in the same order. */
export function standingOf(rows: readonly Row[]): TypeStatus[] {
  const newest = new Map<string, number>();
  for (const { id, version, status } of rows)
    if (status === "approved") newest.set(id, Math.max(version, newest.get(id) ?? 0));
  return rows.map(({ id, version, status }) => {
    if (status !== "approved") return "draft";
    return version < (newest.get(id) ?? 0) ? "superseded" : "approved";
  });
}
