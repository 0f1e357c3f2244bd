import type { Send } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import { type Authority, type SessionState, type Signal, stopOpen } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { answerChoice, unableChoice } from "../signals/answerChoice.ts";
import { closeKinds } from "../signals/close.ts";
import { type AnswerAction, type SignalDefinition, toOnly } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";
import { authorised } from "./authority.ts";
import { authorityFault } from "./fault.ts";
import { ownLeavesOut, withoutLeavesOut } from "./out.ts";
import type { OutService, Service } from "./services.ts";

/**
 * Returns the definition of a service on the crew's leave: either side asks, the cockpit authorises. `isDone` returns
 * whether it is done already.
 */
export function service(
  kind: Service,
  isDone: (state: SessionState) => boolean,
  over: Partial<SignalDefinition> & Pick<SignalDefinition, "stages">,
): SignalDefinition {
  return signal({
    from: ["cockpit", "groundPower", "supervisor"],
    remind: "service",
    escalate: "serviceEscalate",
    witnessable: true,
    decide(state, send, { now }) {
      if (stopOpen(state)) return refuse("stopOpen");
      return isDone(state) ? refuse("alreadyDone") : ask(state, send, kind, now);
    },
    evolve: (state, event, fact) => asked(state, event, fact, kind),
    answer: leaveAnswers(kind),
    ...over,
  });
}

/**
 * Returns the answers to a request of a service. The cockpit gives leave or not; ground power complies with what the
 * cockpit asks for.
 */
export function leaveAnswers(kind: Service) {
  return answers({
    due: (from) => (from === "cockpit" ? ["groundPower"] : ["cockpit"]),
    allowed: ["authorise", "willComply", "received", "unable"],
    closes: (_post, answer) => answer !== "received",
    decide: (state, request, action, context) => leaveFault(state, request, action, context, kind),
    evolve: (state, event, fact, request) =>
      fact.answer === "authorise"
        ? authorised(state, kind, request.engine, event, request.id, request.from)
        : state,
    asked: {
      weight: 3,
      choices(state, request, post, now) {
        const unable = unableChoice(request);
        if (post !== "cockpit") return [answerChoice(request, "willComply", "yes"), unable];
        // A leave that would be refused is not offered. What it waits for has its own ask.
        if (authorityFault(state, kind, now, request.engine)) return [unable];
        // The key names what the crew does with it: hands go to a propeller whose ignition is off.
        const word = kind === "handlePropeller" ? "authoriseIgnitionOff" : "authorise";
        return [answerChoice(request, "authorise", "yes", { word }), unable];
      },
    },
  });
}

function leaveFault(
  state: SessionState,
  request: Signal,
  action: AnswerAction,
  { post, now }: Context,
  kind: Service,
): Verdict | null {
  if (action.answer === "authorise") {
    if (post !== "cockpit") return refuse("answerNotAllowed", { posts: ["cockpit"] });
    return authorityFault(state, kind, now, request.engine);
  }
  // "Will comply" from the cockpit would close the request without a leave.
  if (action.answer === "willComply" && post === "cockpit") {
    return refuse("answerNotAllowed", { found: "authorise, received, unable" });
  }
  return null;
}

function ask(state: SessionState, send: Send, kind: Service, now: number): Verdict {
  // A request from the cockpit is itself the leave, so it must be safe to give.
  const unsafe = send.seenFrom === undefined ? authorityFault(state, kind, now, send.engine ?? null) : null;
  return unsafe ?? accept({ ...send, type: "sent" });
}

/** Returns the state after a request. From the cockpit, the request is itself the leave. */
export function asked(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"sent">,
  kind: Service,
): SessionState {
  const actor = event.actor;
  if (actor.kind !== "person" || actor.post !== "cockpit" || fact.seenFrom !== undefined) return state;
  return authorised(state, kind, fact.engine ?? null, event, event.seq);
}

/** Returns the definition of ground power's report that a service is done. */
export function serviceReport(
  over: Partial<SignalDefinition> & Pick<SignalDefinition, "stages" | "evolve">,
): SignalDefinition {
  return signal({
    from: ["groundPower"],
    remind: "service",
    witnessable: true,
    answer: answers({ due: toOnly("cockpit") }),
    ...over,
  });
}

/** Returns a refusal unless the crew's leave was given in this epoch: only then can a service be done. */
export function onLeave(state: SessionState, send: Send, kind: Service): Verdict {
  return leaveOf(state, kind)
    ? foundDone(state, send, kind)
    : refuse("noAuthority", { posts: ["cockpit"], found: kind });
}

/** The crew's leave for a service, where one of this epoch stands. */
export function leaveOf(state: SessionState, kind: Service): Authority | null {
  const authority = state.authorities[kind];
  return authority && authority.epoch === state.epoch ? authority : null;
}

/** Found done, on leave or not: it names the leave it was done on, where there is one. */
export function foundDone(state: SessionState, { ref: _given, ...send }: Send, kind: Service): Verdict {
  const leave = leaveOf(state, kind);
  return accept({ ...send, ...(leave ? { ref: leave.signal } : {}), type: "sent" });
}

/**
 * The state with the crew's leave for a service used up: it was reported done. Only ground power's own report says that
 * its people are clear; another's ends the leave and leaves them out.
 */
export function spent(before: SessionState, kind: OutService, from: Post | null): SessionState {
  const out = ownLeavesOut(before);
  const kept = out.length === 0 ? before : { ...before, leavesOut: out };
  const state = from === "groundPower" ? withoutLeavesOut(before, [kind]) : kept;
  return closeKinds({ ...state, authorities: { ...state.authorities, [kind]: null } }, [kind], "done");
}
