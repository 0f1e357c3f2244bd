import type { Action, Send } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import type { Person } from "../session/step.ts";
import { signalOf } from "../signals/all.ts";
import { isStop } from "../signals/isStop.ts";

/**
 * Returns the number of an open stop of this person that already says all that `action` would say; null when there is
 * none. Used only against floods, where a second record adds nothing. Not if a request, an answer or an all clear came
 * since, because the stop must then end it.
 */
export function sameStop(state: SessionState, action: Action, person: Person): number | null {
  if (action.type !== "send" || !isStop(action) || state.allClearAt !== null) return null;
  const found = standing(state, action, person);
  if (!found) return null;
  const since = state.signals.some(
    (s) => s.id > found.id && s.is === "open" && signalOf(s.kind).class !== "stop",
  );
  return since ? null : found.id;
}

function standing(state: SessionState, send: Send, person: Person): { id: number } | undefined {
  const engine = send.engine ?? null;
  switch (send.kind) {
    case "hold":
      return state.holds.findLast((h) => h.person === person.id && h.note?.startsWith("turning ") !== true);
    case "turning":
      return state.holds.findLast((h) => h.person === person.id && h.note === `turning ${engine}`);
    case "cut":
      return state.cuts.findLast((c) => c.person === person.id && c.engine === engine && c.doneAt === null);
    case "cutAll":
      return state.cuts.findLast((c) => c.person === person.id && c.engine === null && c.doneAt === null);
    case "fire": {
      const place = send.place ?? "notSaid";
      return state.fires.findLast(
        (f) => f.by.name === person.name && f.engine === engine && f.place === place && f.outBy === null,
      );
    }
    default:
      return undefined;
  }
}
