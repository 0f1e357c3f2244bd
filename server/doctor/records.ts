import type { Chains } from "../store/chains.ts";
import { bad, type Finding, ok, watch } from "./finding.ts";

/** Returns the finding of a check of all hash chains, and how far it came. */
export function recordFinding({ sessions, events, of, late, broken }: Chains): Finding {
  const rest = `time ran out after ${events} of ${of} events`;
  if (broken.length > 0) {
    const where = broken.map(({ code, seq }) => `${code} from event ${seq}`).join(", ");
    return bad(
      "records",
      `not what was once recorded: ${where}${late ? `; ${rest}` : ""}`,
      "keep the database as it is, compare with the last backup (npm run verify on an export), and find out who or what changed it",
    );
  }
  if (late)
    return watch(
      "records",
      `every hash chain intact as far as checked; ${rest}`,
      "give it longer: npm run doctor -- --minutes 30",
    );
  return ok("records", `${events} events in ${sessions} sessions, every hash chain intact`);
}
