import { type Engine, isTurning } from "../engine/life.ts";
import type { Send } from "../protocol/commands.ts";
import { type Cut, engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { witnessFault } from "../signals/witness.ts";

/** Hold, cut, fire and an engine seen turning: always taken. Their ends: only by whom the rules name. */
export function decideStop(state: SessionState, send: Send, context: Context): Verdict {
  switch (send.kind) {
    case "release":
      return release(state, send, context);
    case "resetCut":
      return resetCut(state, send);
    case "fireOut":
      return fireOut(state, send, context);
    default:
      return accept({ ...withKnownEngine(state, withRealWitness(state, send, context)), type: "sent" });
  }
}

/** A stop is never refused for a witness that cannot be one: it is then the sender's own. */
function withRealWitness(state: SessionState, send: Send, context: Context): Send {
  if (!witnessFault(state, send, context)) return send;
  const { seenFrom: _dropped, ...rest } = send;
  return rest;
}

function withoutEngine({ engine: _dropped, ...rest }: Send): Send {
  return rest;
}

/** A stop is never refused for a missing or unknown engine: it then means the wider thing. */
function withKnownEngine(state: SessionState, send: Send): Send {
  if (send.kind === "cutAll") return withoutEngine(send);
  if (send.engine !== undefined && engineOf(state, send.engine)) return send;
  const rest = withoutEngine(send);
  if (send.kind === "cut") return { ...rest, kind: "cutAll" };
  if (send.kind === "turning") return { ...rest, kind: "hold" };
  return rest;
}

/**
 * A hold is released by the person who raised it. When that person holds no post any more: by whoever holds the
 * post it was raised from, or by the supervisor with a reason (lock-out principle of 29 CFR 1910.147, from memory).
 */
function release(state: SessionState, send: Send, context: Context): Verdict {
  const hold = state.holds.find((h) => h.id === send.ref);
  if (!hold) return refuse("nothingOpen");
  // A hold the system raised for a silent post has no person: the supervisor, or the cockpit, ends it.
  if (hold.person === null) {
    const may = context.post === "supervisor" || context.post === "cockpit";
    return may
      ? accept({ ...send, type: "sent" })
      : refuse("notYourHold", { posts: ["supervisor", "cockpit"] });
  }
  const ownerThere = holdsAnyPost(state, hold.person);
  const heir = !ownerThere && context.post !== null && context.post === hold.by.post;
  const supervisor = !ownerThere && context.post === "supervisor" && send.note !== undefined;
  if (hold.person !== context.person.id && !heir && !supervisor) {
    return refuse("notYourHold", { found: hold.by.name });
  }
  return accept({ ...send, type: "sent" });
}

export function holdsAnyPost(state: SessionState, person: string | null): boolean {
  return Object.values(state.posts).some((h) => h !== null && h.id === person);
}

/** The first engine a cut struck that turns still, or turns again. */
export function stillTurning(state: SessionState, cut: Cut): Engine | undefined {
  return state.engines.find((e) => (cut.engine === null || cut.engine === e.n) && isTurning(e.life));
}

/** A cut stays until the cockpit reported the engines stopped and they are recorded so. */
function resetCut(state: SessionState, send: Send): Verdict {
  const cut = state.cuts.find((c) => c.id === send.ref);
  if (!cut) return refuse("nothingOpen");
  const turning = stillTurning(state, cut);
  if (turning) return refuse("wrongEngineState", { engine: turning.n, found: turning.life.is });
  if (cut.doneAt === null)
    return refuse("wrongEngineState", { found: "notReportedDone", posts: ["cockpit"] });
  return accept({ ...send, type: "sent" });
}

/** A fire is out when two different people on two devices say so. */
function fireOut(state: SessionState, send: Send, context: Context): Verdict {
  const fire = state.fires.find((f) => f.id === send.ref);
  if (!fire) return refuse("nothingOpen");
  const first = fire.outBy;
  if (first && (first.person === context.person.id || first.device === context.person.device)) {
    return refuse("secondPersonNeeded", { found: first.name, posts: ["fireGuard", "supervisor", "cockpit"] });
  }
  return accept({ ...send, type: "sent" });
}
