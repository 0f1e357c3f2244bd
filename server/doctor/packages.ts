import type { PackagesRecord } from "../packages/record.ts";
import { bad, type Finding, ok, watch } from "./finding.ts";

const AT = "packages";
const DAY_MS = 24 * 3_600_000;
/** Days to fix known faults, and days after which to ask again: the rule in SECURITY.md, 15.1.1. */
const GRAVE_DAYS = 7;
const OTHER_DAYS = 30;
const ASK_DAYS = 30;
const ASK = "run npm run audit, and schedule it every week";

/**
 * Checks that known faults were looked up recently and fixed in time.
 * @param lock digest of the present lock file
 */
export function packagesFinding(record: PackagesRecord | null, lock: string, now: number): Finding {
  if (record === null) return watch(AT, "never checked for known faults", ASK);
  const days = (iso: string) => (now - Date.parse(iso)) / DAY_MS;
  const grave = (severity: string) => severity === "critical" || severity === "high";
  const faults = Object.entries(record.faults);
  const due = ([, { severity, since }]: (typeof faults)[number]) =>
    days(since) > (grave(severity) ? GRAVE_DAYS : OTHER_DAYS);
  const told = (some: typeof faults) =>
    some.map(([name, { severity }]) => `${name} (${severity})`).join(", ");
  const late = faults.filter(due);
  if (late.length > 0)
    return bad(
      AT,
      `known faults past their deadline: ${told(late)}`,
      "take a newer version of Chockside, or npm audit fix; then npm run audit",
    );
  if (record.lock !== lock) return watch(AT, "changed since the last check", ASK);
  if (days(record.at) > ASK_DAYS) return watch(AT, `last checked at ${record.at}`, ASK);
  if (faults.length > 0)
    return watch(
      AT,
      `known faults: ${told(faults)}`,
      `mend them within ${faults.some(([, f]) => grave(f.severity)) ? GRAVE_DAYS : OTHER_DAYS} days: npm audit --omit=dev says how`,
    );
  return ok(AT, `no known faults, asked at ${record.at}`);
}
