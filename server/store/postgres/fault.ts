/** SQLSTATE classes and codes (PostgreSQL manual, appendix A) after which it is not known whether a statement was
 * committed: connection exceptions, and a server that is shutting down or starting. */
const UNKNOWN = /^(08|57P0[123])/;

/** Somebody else was first: a uniqueness broken (23505), or the loser of a deadlock (40P01) or of a race (40001). */
const CONFLICT = new Set(["23505", "40P01", "40001"]);

export type Fault = "conflict" | "refused" | "lost";

/** What an error of the driver means: another was first, the database said no, or the link went with the answer. */
export function faultOf(error: unknown): Fault {
  const { code } = error as { code?: unknown };
  // The driver's own errors have no SQLSTATE, and the system's are words such as ECONNRESET.
  if (typeof code !== "string" || !/^[0-9A-Z]{5}$/.test(code) || UNKNOWN.test(code)) return "lost";
  return CONFLICT.has(code) ? "conflict" : "refused";
}

export function messageOf(error: unknown): string {
  if (error instanceof AggregateError) return error.errors.map(messageOf).join("; ");
  return error instanceof Error ? error.message : String(error);
}
