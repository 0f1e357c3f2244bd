import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { sha256 } from "../sha256.ts";

const severitySchema = z.enum(["info", "low", "moderate", "high", "critical"]);

/** The latest answer about known faults of our packages. */
const recordSchema = z.strictObject({
  /** Time of the question, ISO 8601. */
  at: z.iso.datetime(),
  /** SHA-256 of the lock file at that time. */
  lock: z.string(),
  /** Packages with known faults: the severity, and since when the answer has it. */
  faults: z.record(z.string(), z.strictObject({ severity: severitySchema, since: z.iso.datetime() })),
});
export type PackagesRecord = z.infer<typeof recordSchema>;

/** The parts we read of `npm audit --json`, report version 2 (from memory). */
const reportSchema = z.object({
  auditReportVersion: z.literal(2),
  vulnerabilities: z.record(z.string(), z.object({ severity: severitySchema })),
});

/** @throws Error when it is not such a report: npm prints JSON on failure too */
export function recordOf(
  report: unknown,
  lock: string,
  now: number,
  before: PackagesRecord | null,
): PackagesRecord {
  const read = reportSchema.safeParse(report);
  if (!read.success)
    throw new Error((report as { message?: string } | null)?.message ?? "npm audit gave no report");
  const at = new Date(now).toISOString();
  const faults = Object.entries(read.data.vulnerabilities).map(([name, { severity }]) => {
    const known = before?.faults[name];
    return [name, { severity, since: known?.severity === severity ? known.since : at }] as const;
  });
  return { at, lock, faults: Object.fromEntries(faults) };
}

/** Returns the path of the record, beside the database. */
export const recordFile = (data: string): string => join(dirname(data), "packages-audit.json");

/**
 * Returns null when nobody asked yet.
 * @throws Error when it cannot be read
 */
export function readRecord(data: string): PackagesRecord | null {
  const file = recordFile(data);
  return existsSync(file) ? recordSchema.parse(JSON.parse(readFileSync(file, "utf8"))) : null;
}

/** Returns the SHA-256 of this program's lock file. */
export function lockNow(): string {
  return sha256(readFileSync(fileURLToPath(new URL("../../package-lock.json", import.meta.url)), "utf8"));
}
