import type { ExaminedPostgres } from "../store/postgres/examine.ts";
import { bad, type Finding, ok, watch } from "./finding.ts";
import { recordFinding } from "./records.ts";

/** Returns findings for an examined PostgreSQL database. */
export function postgresFindings(found: ExaminedPostgres): Finding[] {
  if (found.unusable !== null)
    return [bad("database", found.unusable, "check DATABASE_URL and that PostgreSQL runs")];
  const findings = [ok("database", "PostgreSQL answers, and keeps what it commits")];
  if (found.lacking.length > 0)
    findings.push(
      bad("rights", `this user lacks ${found.lacking.join(", ")}`, "make the user the database's owner"),
    );
  if (found.refused !== null)
    return [
      ...findings,
      bad("version", found.refused, "run the version of Chockside that made it, or a newer one"),
    ];
  if (!found.made)
    return [
      ...findings,
      watch("version", "nothing is in it yet", "nothing: the first start makes what it needs"),
    ];
  const { pending } = found;
  findings.push(
    pending.length === 0
      ? ok("version", "in this version's shape")
      : watch("version", `the next start applies ${pending.join(", ")}`, "make a backup first: pg_dump"),
  );
  if (found.chains !== null) findings.push(recordFinding(found.chains));
  return findings;
}
