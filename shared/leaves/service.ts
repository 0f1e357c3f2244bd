import type { Send } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { type OutService, type Service, type SessionState, type Signal, stopOpen } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { answerChoice, unableChoice } from "../signals/answerChoice.ts";
import { closeKinds } from "../signals/close.ts";
import { type AnswerAction, type SignalDefinition, toOnly } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";
import { authorised } from "./authority.ts";
import { authorityFault } from "./fault.ts";
import { withoutLeavesOut } from "./out.ts";

/**
 * A service the ground does on the crew's leave: asked by either side, authorised by the cockpit. `isDone` tells
 * whether it is so already.
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

/** The cockpit gives leave or not; what the cockpit asks for, ground power does. */
export function leaveAnswers(kind: Service) {
  return answers({
    due: (from) => (from === "cockpit" ? ["groundPower"] : ["cockpit"]),
    allowed: ["authorise", "willComply", "received", "unable"],
    closes: (_post, answer) => answer !== "received",
    decide: (state, request, action, context) => leaveFault(state, request, action, context, kind),
    evolve: (state, event, fact, request) =>
      fact.answer === "authorise" ? authorised(state, kind, request.engine, event, request.id) : state,
    asked: {
      weight: 3,
      choices(state, request, post, now) {
        const unable = unableChoice(request);
        if (post !== "cockpit") return [answerChoice(request, "willComply", "yes"), unable];
        // Leave that would be refused is not offered: what it waits for is asked for by itself.
        if (authorityFault(state, kind, now, request.engine)) return [unable];
        return [answerChoice(request, "authorise", "yes"), unable];
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
  // The crew gives leave or not: that it will comply would close the request with nothing allowed.
  if (action.answer === "willComply" && post === "cockpit") {
    return refuse("answerNotAllowed", { found: "authorise, received, unable" });
  }
  return null;
}

function ask(state: SessionState, send: Send, kind: Service, now: number): Verdict {
  // Asked by the cockpit, the request is the authority: it must be safe to give.
  const unsafe = send.seenFrom === undefined ? authorityFault(state, kind, now, send.engine ?? null) : null;
  return unsafe ?? accept({ ...send, type: "sent" });
}

/** From the cockpit, the request is the authority itself. */
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

/** A report of ground power that a service is done. */
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

/** Done is only possible on the crew's leave, given in this epoch. */
export function onLeave(state: SessionState, send: Send, kind: Service): Verdict {
  const authority = state.authorities[kind];
  if (!authority || authority.epoch !== state.epoch) {
    return refuse("noAuthority", { posts: ["cockpit"], found: kind });
  }
  return accept({ ...send, ref: authority.signal, type: "sent" });
}

/** The state with the crew's leave for a service used up: it was reported done. */
export function spent(before: SessionState, kind: OutService): SessionState {
  const state = withoutLeavesOut(before, [kind]);
  return closeKinds({ ...state, authorities: { ...state.authorities, [kind]: null } }, [kind], "done");
}
