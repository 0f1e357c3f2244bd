import type { Attribution } from "../session/attribution.ts";
import type { Finding } from "./condition.ts";

/** A report's finding: yes while younger than `freshSeconds`, stale after; null never ages. */
export function fromReport(said: Attribution, freshSeconds: number | null, now: number): Finding {
  const until = freshSeconds === null ? null : said.at + freshSeconds * 1000;
  return {
    is: until !== null && now >= until ? "stale" : "yes",
    at: said.at,
    by: { post: said.post, name: said.name },
    until,
  };
}

/** A report that says no. */
export function reportedNo(said: Attribution, found?: string): Finding {
  const by = { post: said.post, name: said.name };
  return { is: "no", at: said.at, by, until: null, ...(found === undefined ? {} : { found }) };
}

export const NOBODY_SAID: Finding = { is: "unknown", at: null, by: null, until: null };
