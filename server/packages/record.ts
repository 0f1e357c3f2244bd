import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { sha256 } from "../sha256.ts";

const severitySchema = z.enum(["info", "low", "moderate", "high", "critical"]);

/** What was answered when somebody asked whether faults of the packages in use are known. */
const recordSchema = z.strictObject({
  /** When it was asked, ISO 8601. */
  at: z.iso.datetime(),
  /** SHA-256 of the lock file it was asked about. */
  lock: z.string(),
  /** Packages with known faults: how bad, and when that was first answered. */
  faults: z.record(z.string(), z.strictObject({ severity: severitySchema, since: z.iso.datetime() })),
});
export type PackagesRecord = z.infer<typeof recordSchema>;

/** As `npm audit --json` answers (its report version 2, from memory), as far as it is read here. */
const reportSchema = z.object({
  auditReportVersion: z.literal(2),
  vulnerabilities: z.record(z.string(), z.object({ severity: severitySchema })),
});

/** @throws Error when it is no such report: npm answers in JSON too when it could not ask */
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

/** Beside the database. */
export const recordFile = (data: string): string => join(dirname(data), "packages-audit.json");

/** Null where nobody ever asked. @throws Error when it cannot be read */
export function readRecord(data: string): PackagesRecord | null {
  const file = recordFile(data);
  return existsSync(file) ? recordSchema.parse(JSON.parse(readFileSync(file, "utf8"))) : null;
}

/** SHA-256 of this program's lock file. */
export function lockNow(): string {
  return sha256(readFileSync(fileURLToPath(new URL("../../package-lock.json", import.meta.url)), "utf8"));
}
