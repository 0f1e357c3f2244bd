import { plain } from "../engine/life.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { Cut, Fire, Hold, SessionState, Slip } from "../session/state.ts";
import type { Context } from "../session/verdict.ts";
import { refsOf } from "./fireSeats.ts";

/**
 * Returns until when, by whom and on which device a stop can be taken back as a slip. Empty where the type gives no time
 * for it: nothing is then taken back.
 */
export function slipOf(state: SessionState, { at, actor }: SessionEvent): { slip?: Slip } {
  const limit = state.type.timing.slip;
  if (limit === undefined || actor.kind !== "person") return {};
  return { slip: { person: actor.id, device: actor.device, until: at + limit.value * 1000 } };
}

/** A standing stop that a person gave, and its kind. */
export type Given =
  | { kind: "hold"; stop: Hold }
  | { kind: "cut" | "cutAll"; stop: Cut }
  | { kind: "fire"; stop: Fire };

/** Returns the standing stop of this number. */
export function stopGiven(state: SessionState, id: number): Given | undefined {
  const hold = state.holds.find((h) => h.id === id);
  if (hold) return { kind: "hold", stop: hold };
  const cut = state.cuts.find((c) => c.id === id);
  if (cut) return { kind: cut.engine === null ? "cutAll" : "cut", stop: cut };
  const fire = state.fires.find((f) => f.id === id);
  return fire && { kind: "fire", stop: fire };
}

/** Returns why this person cannot take the stop back as a slip now; null when they can. */
export function slipFault(
  state: SessionState,
  given: Given,
  person: Pick<Context["person"], "id" | "device">,
  now: number,
): Refusal | null {
  const { slip, by } = given.stop;
  if (slip === undefined) return { reason: "noSlips" };
  if (slip.person !== person.id || slip.device !== person.device) {
    return { reason: "notYourSlip", found: by.name };
  }
  if (now >= slip.until) return { reason: "slipOver" };
  const found = actedOn(state, given);
  return found === null ? null : { reason: "slipActedOn", found };
}

/** Returns who or what has acted on the stop since, by name; null when nobody has. */
function actedOn(state: SessionState, given: Given): string | null {
  const { id, by } = given.stop;
  const signal = [...state.signals, ...state.ended].find((s) => s.id === id);
  const answer = Object.values(signal?.answers ?? {}).find((a) => a.answer !== "received");
  if (answer) return answer.name;
  const other = stopByOther(state, given.stop);
  if (other !== null) return other;
  if (given.kind === "fire") {
    const { outBy, said } = given.stop;
    const word = said?.find((w) => w.person !== given.stop.slip?.person);
    if (outBy || word) return outBy?.name ?? word?.by.name ?? null;
    const refs = refsOf(given.stop);
    const run = state.drills.find((r) => r.ref !== null && refs.includes(r.ref));
    const worked = Object.values(run?.steps ?? {}).some((steps) => steps.some((s) => s !== null));
    if (run && worked) return state.type.drills.find((d) => d.id === run.drill)?.title ?? run.drill;
  }
  return stoppedSince(state, by.at) ? "shutDown" : null;
}

/** Returns the name of another person who has given a stop since, the same or another; null for none. */
function stopByOther(state: SessionState, { id, by, slip }: Given["stop"]): string | null {
  const byOthers = [
    ...state.holds.filter((h) => h.person !== null && h.person !== slip?.person),
    ...state.cuts.filter((c) => c.person !== slip?.person),
    ...state.fires.filter((f) => f.slip?.person !== slip?.person),
  ];
  return byOthers.find((s) => s.id !== id && s.by.at >= by.at)?.by.name ?? null;
}

/** Returns whether an engine was stopped, or its start given up, since then: somebody may have acted on the stop. */
function stoppedSince(state: SessionState, at: number): boolean {
  return state.engines.some(({ life, lastRanAt, starter }) => {
    const now = plain(life);
    if (now.is === "shutDown" || now.is === "cooling") return now.since >= at;
    if (lastRanAt !== null && lastRanAt >= at) return true;
    // Cranked once more after a start that was given up since.
    return now.is === "cranking" && starter.some(({ off }) => off !== null && off >= at);
  });
}
