import type { Ask, Choice } from "../../../shared/asks/ask.ts";
import { askedOf } from "../../../shared/asks/asked.ts";
import type { Send } from "../../../shared/protocol/commands.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import { permissionFor } from "../../../shared/session/permissions.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { signalOf } from "../../../shared/signals/all.ts";

/**
 * Returns the signal that asks a post again: the same one, sent by the same post, which replaces the earlier one. Null
 * when `post` did not ask itself, and for a stop, which stands until it is answered. A clearance is never sent twice.
 */
export function askAgain(state: SessionState, post: Post | null, { signal: id }: Ask): Send | null {
  const signal = state.signals.find((s) => s.id === id);
  if (!signal || post === null || signal.from !== post || signal.by.post !== post) return null;
  const { class: is, answer } = signalOf(signal.kind);
  const repeats = is === "raises" && !answer.allowed.includes("readBack") && signal.ref === null;
  const send: Send = {
    type: "send",
    kind: signal.kind,
    channel: "panel",
    ...(signal.engine === null ? {} : { engine: signal.engine }),
    ...(signal.note === null ? {} : { note: signal.note }),
  };
  return repeats && permissionFor(send).stages.includes(state.stage) ? send : null;
}

/**
 * Returns the signals without an entry that `post` may send itself for what another post is asked too, such as the end of
 * a cut. An answer, a brief and a sign of presence are each post's own.
 */
export function ownAnswers(
  state: SessionState,
  post: Post | null,
  { key, signal }: Ask,
  now: number,
): Choice[] {
  if (post === null || signal !== null) return [];
  const same = askedOf(state, post, now).find((a) => a.key === key);
  return (same?.choices ?? []).filter(({ need, draft }) => need === null && draft.type === "send");
}
