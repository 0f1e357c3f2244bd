import type { TypeStatus } from "./directory.ts";

interface Row {
  id: string;
  version: number;
  status: string;
}

/** Returns the status of each version, in the same order, in view of the other versions of its type. */
export function statusesOf(rows: readonly Row[]): TypeStatus[] {
  const newest = new Map<string, number>();
  for (const { id, version, status } of rows)
    if (status === "approved") newest.set(id, Math.max(version, newest.get(id) ?? 0));
  return rows.map(({ id, version, status }) => {
    if (status !== "approved") return "draft";
    return version < (newest.get(id) ?? 0) ? "superseded" : "approved";
  });
}
