import type { Attribution } from "../session/attribution.ts";

interface Report {
  by: Attribution;
}

/**
 * Returns the later of two reports. Of two in one millisecond it returns the same one whichever comes first: a record
 * and a session that each took the other's would tell each other of it without end.
 * @param worse returns true for a report that is taken before any other of its millisecond
 */
export function later<T extends Report>(a: T, b: T, worse: (report: T) => boolean = () => false): T {
  if (a.by.at !== b.by.at) return a.by.at > b.by.at ? a : b;
  if (worse(a) !== worse(b)) return worse(a) ? a : b;
  return JSON.stringify(a) > JSON.stringify(b) ? a : b;
}
