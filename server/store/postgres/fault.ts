/**
 * SQLSTATE classes and codes (PostgreSQL manual, appendix A) after which it is unknown whether a statement was
 * committed: connection exceptions, and a server that is shutting down or starting.
 */
const UNKNOWN = /^(08|57P0[123])/;

/** Another transaction came first: unique violation (23505), deadlock (40P01) or serialization failure (40001). */
const CONFLICT = new Set(["23505", "40P01", "40001"]);

export type Fault = "conflict" | "refused" | "lost";

/**
 * Classifies an error of the driver: another transaction came first, the database refused, or the answer was lost
 * with the connection.
 */
export function faultOf(error: unknown): Fault {
  const { code } = error as { code?: unknown };
  // The driver's own errors have no SQLSTATE, and the system's have words such as ECONNRESET.
  if (typeof code !== "string" || !/^[0-9A-Z]{5}$/.test(code) || UNKNOWN.test(code)) return "lost";
  return CONFLICT.has(code) ? "conflict" : "refused";
}

export function messageOf(error: unknown): string {
  if (error instanceof AggregateError) return error.errors.map(messageOf).join("; ");
  return error instanceof Error ? error.message : String(error);
}
