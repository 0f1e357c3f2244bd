import type { Action } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { ALERTS } from "./kinds.ts";
import { alertNext } from "./machine.ts";

/** The longest time for which an alert may be shelved, minutes. The project chose it; no source gives one. */
const SHELVE_MAX_MIN = 15;

type AlertAction = Extract<Action, { type: "acknowledgeAlert" | "shelveAlert" }>;

/**
 * Decides an action on an alert. A post acts for itself only. An alert on which a person must act now is never shelved;
 * every shelf ends.
 */
export function decideAlert(state: SessionState, action: AlertAction, context: Context): Verdict {
  const alert = state.alerts.find((a) => a.id === action.alert);
  const post = context.post;
  if (!alert) return refuse("nothingOpen");
  const now = post ? alert.posts[post] : undefined;
  const { to, latching, shelvable } = ALERTS[alert.kind];
  if (!post || now === undefined) return refuse("notAddressed", { posts: [...to] });
  if (action.type === "shelveAlert" && !shelvable) return refuse("notShelvable");
  const input = action.type === "acknowledgeAlert" ? "acknowledge" : "shelve";
  const next = alertNext(now, input, { latching, active: alert.active });
  if (next === "refused" && input === "shelve") return refuse("notShelvable");
  if (next === "refused" || next === "same") return refuse("alreadyDone");
  if (action.type === "acknowledgeAlert") return accept({ type: "alertAcknowledged", alert: alert.id, post });
  if (action.minutes > SHELVE_MAX_MIN) return refuse("outOfRange", { found: `1 to ${SHELVE_MAX_MIN} min` });
  const until = context.now + action.minutes * 60_000;
  return accept({ type: "alertShelved", alert: alert.id, post, until });
}
