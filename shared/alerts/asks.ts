import { type Ask, ask, type Choice, choice, type Detail } from "../asks/ask.ts";
import { missedPosts } from "../posts/presence.ts";
import type { Post } from "../protocol/posts.ts";
import type { Alert, SessionState } from "../session/state.ts";
import { lightningAct } from "../weather/lightningAsks.ts";
import { ALERTS } from "./kinds.ts";
import { needsPerson } from "./machine.ts";
import { vacantPosts } from "./posts.ts";

/**
 * Returns the alerts that this post has not acknowledged, or must reset. An alert that this post can end is asked with
 * the weight of danger.
 */
export function alertAsks(state: SessionState, post: Post, now: number): Ask[] {
  // While the signal is open, its own ask has the answer.
  const asked = new Set(
    state.signals
      .filter((s) => s.due.includes(post) && !s.answers[post])
      // The alert of a stop that was a slip is over: its disregard says more.
      .map((s) => (s.kind === "disregard" ? s.ref : s.id)),
  );
  return state.alerts
    .filter((a) => needsPerson(a.posts[post] ?? "normal"))
    .filter((a) => a.ref === null || !asked.has(a.ref))
    .map((a) => {
      const acts = actsOn(state, a, post);
      return ask({
        key: `alert:${a.id}`,
        say: a.active ? `alert.${a.kind}` : `alertOver.${a.kind}`,
        weight: acts ? 0 : 1,
        engine: a.engine,
        since: a.at,
        detail: detailOf(state, a, post, now),
        choices: acts ?? seen(state, a, post),
      });
    });
}

/**
 * Returns the choices with which this post can end the alert; null when another post must, or when its cause is gone.
 */
function actsOn(state: SessionState, { kind, engine, active }: Alert, post: Post): Choice[] | null {
  const { acts } = ALERTS[kind];
  return active && engine !== null && acts?.post === post ? acts.choices(state, engine) : null;
}

function seen(state: SessionState, alert: Alert, post: Post): Choice[] {
  const { id, kind } = alert;
  if (namesSilent(state, alert, post)) return [choice("present", "yes", { type: "present" })];
  const acknowledge = choice("acknowledge", "plain", { type: "acknowledgeAlert", alert: id });
  if (!ALERTS[kind].shelvable) return [acknowledge];
  return [acknowledge, choice("shelve", "plain", { type: "shelveAlert", alert: id, minutes: 5 })];
}

/** Returns what the words of an alert say beyond its kind and engine. */
function detailOf(state: SessionState, { kind, voided }: Alert, post: Post, now: number): Detail | null {
  switch (kind) {
    case "lightning":
      return { is: "lightning", act: lightningAct(state, post) };
    case "clearanceVoid":
      return voided ? { is: "voided", ...voided } : null;
    case "postVacant":
      return { is: "posts", posts: vacantPosts(state) };
    case "postSilent":
      return { is: "posts", posts: missedPosts(state, now) };
    default:
      return null;
  }
}

/**
 * Returns whether the alert is about a hold for this post's own silence: the post is then asked to show that it is
 * present.
 */
function namesSilent(state: SessionState, alert: Alert, post: Post): boolean {
  return state.holds.some((h) => h.id === alert.ref && h.silent?.includes(post));
}
