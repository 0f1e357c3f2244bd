import { acknowledgeFor } from "../alerts/evolve.ts";
import type { Send } from "../protocol/commands.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { closeSignal } from "../signals/close.ts";
import { ANNEX } from "../signals/definition.ts";
import { signal } from "../signals/kinds.ts";
import { held } from "./held.ts";
import { unheardOf } from "./lapse.ts";
import { latched, stop } from "./latch.ts";
import { holdsAnyPost, supervisorMayAt } from "./releaser.ts";
import { slipOf } from "./slip.ts";

/** A latched stop of all new action. It belongs to the person who raised it. */
export const hold = stop({
  engine: "optional",
  tone: "hold",
  standard: { figure: "holdStandBy", text: `${ANNEX} 5.1, hold position / stand by` },
  evolve: (state, event, fact) => held(latched(state), event, fact, fact.note ?? null, slipOf(state, event)),
});

export const release = signal({
  from: "anyone",
  stages: LIVE_STAGES,
  decide: mayRelease,
  evolve(state, event, fact) {
    const hold = state.holds.find((h) => h.id === fact.ref);
    const by = event.actor.kind === "person" ? event.actor.post : null;
    // No person raised a hold for silence, so a post acknowledges it by releasing it.
    const seen = hold?.silent && by ? acknowledgeFor(state, hold.id, by) : state;
    const holds = seen.holds.filter((h) => h.id !== fact.ref);
    return closeSignal({ ...seen, holds }, fact.ref ?? 0, "done");
  },
});

/**
 * Only the person who raised a hold may release it. If that person holds no post any more, the present holder of the
 * post it was raised from may, or the supervisor with a reason (lock-out principle of 29 CFR 1910.147, from memory).
 */
function mayRelease(state: SessionState, send: Send, context: Context): Verdict {
  const hold = state.holds.find((h) => h.id === send.ref);
  if (!hold) return refuse("nothingOpen");
  // A hold that the system raised for a silent post has no person: the supervisor or the cockpit may end it.
  if (hold.person === null) {
    const may = context.post === "supervisor" || context.post === "cockpit";
    if (!may) return refuse("notYourHold", { posts: ["supervisor", "cockpit"] });
    // The releaser's post counts as heard, because this command is a touch.
    const unheard = unheardOf(state, hold).filter((post) => post !== context.post);
    return unheard.length === 0
      ? accept({ ...send, type: "sent" })
      : refuse("stillSilent", { posts: unheard, found: unheard.map((p) => state.posts[p]?.name).join(", ") });
  }
  const ownerThere = holdsAnyPost(state, hold.person);
  const heir = !ownerThere && context.post !== null && context.post === hold.by.post;
  const supervisor =
    !ownerThere &&
    context.post === "supervisor" &&
    send.note !== undefined &&
    context.now >= supervisorMayAt(state, hold);
  if (hold.person !== context.person.id && !heir && !supervisor) {
    return refuse("notYourHold", { found: hold.by.name });
  }
  return accept({ ...send, type: "sent" });
}
