/**
 * Prisma's codes for a database that does not answer: no connection (P1…), no free connection in time (P2024), too many
 * connections (P2037). Source: Prisma's error reference.
 */
const NOT_ANSWERING = /^(P1\d{3}|P2024|P2037)$/;

/** Prisma's errors without a code: the database could not be opened, or it failed in a way that Prisma does not know. */
const WITHOUT_CODE = ["PrismaClientInitializationError", "PrismaClientUnknownRequestError"];

/** Returns true for an error of the directory that says that its database cannot be read or written now. */
export function isDatabaseFault(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const { code } = error as { code?: unknown };
  return WITHOUT_CODE.includes(error.name) || (typeof code === "string" && NOT_ANSWERING.test(code));
}
