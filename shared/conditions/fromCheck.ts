import type { SessionState } from "../session/state.ts";
import type { Finding } from "./condition.ts";
import { NOBODY_SAID } from "./finding.ts";

/** A condition that stands on one of the type's checks: good, and done lately enough. `null` never ages. */
export function fromCheck(
  state: SessionState,
  check: string,
  freshSeconds: number | null,
  now: number,
): Finding {
  const record = state.checks[check];
  if (!record) return NOBODY_SAID;
  const by = { post: state.type.checks.find((c) => c.id === check)?.post ?? null, name: record.name };
  if (!record.good) return { is: "no", at: record.at, by, until: null };
  const until = freshSeconds === null ? null : record.at + freshSeconds * 1000;
  return { is: until !== null && now >= until ? "stale" : "yes", at: record.at, by, until };
}
