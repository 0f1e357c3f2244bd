import type { AlertKind } from "../protocol/alerts.ts";
import type { Action } from "../protocol/commands.ts";
import type { Post } from "../protocol/posts.ts";
import { judgedAs } from "./judgedAs.ts";
import type { SessionState } from "./state.ts";
import { act, type Person } from "./step.ts";

/** The effects of an action besides its own record. */
export type Foreseen =
  | { is: "alert"; kind: AlertKind; engine: number | null; to: readonly Post[] }
  | { is: "drill"; drill: string }
  | { is: "clearanceVoid"; engine: number }
  /** It counts as a report that something is not right. */
  | { is: "lowers" };

/**
 * Returns what an action of this person would set off if the server took it now. Empty for an action that sets nothing
 * off, and for one that would be refused.
 */
export function foresee(state: SessionState, action: Action, person: Person, now: number): Foreseen[] {
  const mark = { id: "foreseen", digest: "foreseen", clientAt: now };
  const { events, refusal } = act(state, action, person, mark, now);
  if (refusal) return [];
  const found = events.flatMap(({ fact }): Foreseen[] => {
    switch (fact.type) {
      case "alertRaised":
        return [{ is: "alert", kind: fact.kind, engine: fact.engine ?? null, to: fact.to }];
      case "drillStarted":
        return [{ is: "drill", drill: fact.drill }];
      case "clearanceVoid":
        return [{ is: "clearanceVoid", engine: fact.engine }];
      default:
        return [];
    }
  });
  return judgedAs(state, action) === "lowers" ? [{ is: "lowers" }, ...found] : found;
}
