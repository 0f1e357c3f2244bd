import { isForeign } from "../aircraft/foreign.ts";
import type { Moment } from "../paper/moments.ts";
import type { FactType, SessionEvent } from "../protocol/events.ts";
import type { Alert, SessionState } from "../session/state.ts";
import type { Raised, StartAlert, StartRefusal, StartStop } from "./row.ts";

export const NOTHING_RAISED: Raised = { alerts: [], stops: [], refusals: [], touches: 0 };

const STOPS = ["hold", "cut", "fire"] as const;

/** Facts by which a person only takes note of an alert, or is only there. */
const NO_ACT: readonly FactType[] = [
  "alertAcknowledged",
  "alertShelved",
  "alertUnshelved",
  "present",
  "delivered",
  "refused",
];

/** Returns the holds, cuts and fires that this moment raised in the session itself. */
export function stopsRaised({ event, before, after }: Moment): StartStop[] {
  return STOPS.flatMap((is) => {
    const known = new Set((before?.[`${is}s`] ?? []).map(({ id }) => id));
    return stopsOf(after, is)
      .filter(({ id }) => !known.has(id) && !isForeign(id))
      .map((stop) => ({ is, at: event.at, ended: null, ...stop }));
  });
}

function stopsOf(
  { holds, cuts, fires }: SessionState,
  is: (typeof STOPS)[number],
): Pick<StartStop, "id" | "by" | "post" | "reason">[] {
  if (is === "hold")
    return holds.map(({ id, by, note }) => ({ id, by: by.name, post: by.post, reason: note }));
  const others = is === "cut" ? cuts : fires;
  return others.map(({ id, by }) => ({ id, by: by.name, post: by.post, reason: null }));
}

/** Returns the numbers of the stops that stood before this moment and do not after it. */
export function stopsEnded({ before, after }: Moment): number[] {
  return STOPS.flatMap((is) => {
    if (!before || before[`${is}s`] === after[`${is}s`]) return [];
    const left = new Set(after[`${is}s`].map(({ id }) => id));
    return before[`${is}s`].map(({ id }) => id).filter((id) => !left.has(id));
  });
}

/** Returns the alert that this moment raised, or null. One that is suppressed by design called nobody. */
export function alertRaised({ event, after }: Moment): StartAlert | null {
  const { fact, at, seq } = event;
  if (fact.type !== "alertRaised" || fact.suppressedBy !== undefined) return null;
  const { kind, engine = null, ref = null } = fact;
  const same = (a: Alert) => a.kind === kind && a.engine === engine && a.ref === ref;
  const id = after.alerts.findLast(same)?.id ?? seq;
  return { kind, engine, id, at, ended: null, shelved: false, acted: false };
}

/** Returns what this moment changed of an alert that stood before it. */
export function alertChange(alert: Alert, { event, after }: Moment): Partial<StartAlert> {
  const { fact, at } = event;
  const over = alert.active && !after.alerts.some((a) => a.id === alert.id && a.active);
  return {
    ...(fact.type === "alertShelved" && fact.alert === alert.id ? { shelved: true } : {}),
    ...(alert.active && isAct(event) ? { acted: true } : {}),
    ...(over ? { ended: at } : {}),
  };
}

const isAct = ({ actor, fact }: SessionEvent): boolean =>
  actor.kind === "person" && !NO_ACT.includes(fact.type);

/** Returns what this moment refused, or null. */
export function refusalMade({ event }: Moment): StartRefusal | null {
  const { fact, actor, at } = event;
  if (fact.type !== "refused") return null;
  const { reason, unmet = [] } = fact.refusal;
  return {
    at,
    post: actor.kind === "person" ? actor.post : null,
    reason,
    conditions: unmet.map(({ id }) => id),
  };
}
