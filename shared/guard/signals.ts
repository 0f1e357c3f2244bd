import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { FROM_SECURE } from "../protocol/stages.ts";
import { said } from "../session/attribute.ts";
import type { SessionState } from "../session/state.ts";
import { accept, refuse } from "../session/verdict.ts";
import { ANNEX } from "../signals/definition.ts";
import { signal } from "../signals/kinds.ts";
import { turningOnTheWay } from "./way.ts";

const seenBySome = ["cockpit", "supervisor"] as const;

export const guardInPlace = signal({
  from: ["fireGuard"],
  stages: FROM_SECURE,
  engine: "required",
  witnessable: true,
  evolve: moved,
  menu: { own: ["fireGuard"], seenBy: seenBySome, when: null, tone: "plain" },
});

export const guardAway = signal({
  from: ["fireGuard"],
  stages: FROM_SECURE,
  evolve: (state) => ({ ...state, guard: null, arcs: {} }),
  menu: { own: ["fireGuard"], seenBy: [], when: null, tone: "plain" },
});

/** The arc is only clear from a guard who stands where it can be seen. */
export const arcClear = signal({
  from: ["fireGuard"],
  stages: FROM_SECURE,
  engine: "required",
  witnessable: true,
  standard: { figure: "pathClear", text: `${ANNEX} 5.1 item 1, path unobstructed, used here for the arc` },
  decide(state, send) {
    if (state.guard?.engine === send.engine) return accept({ ...send, type: "sent" });
    const where = state.guard ? { found: String(state.guard.engine) } : {};
    return refuse("notAtEngine", { engine: send.engine ?? 0, posts: ["fireGuard"], ...where });
  },
  evolve: (state, event, fact) => arcSeen(state, event, fact, true),
  menu: { own: ["fireGuard"], seenBy: seenBySome, when: null, tone: "plain" },
});

export const arcNotClear = signal({
  from: ["fireGuard", "groundPower", "supervisor"],
  stages: FROM_SECURE,
  engine: "required",
  witnessable: true,
  evolve: (state, event, fact) => arcSeen(state, event, fact, false),
  menu: {
    own: ["fireGuard", "groundPower", "supervisor"],
    seenBy: seenBySome,
    when: null,
    tone: "no",
  },
});

function arcSeen(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"sent">,
  clear: boolean,
): SessionState {
  const seen = { ...said(event, fact.seenFrom ?? null), clear };
  return { ...state, arcs: { ...state.arcs, [fact.engine ?? 0]: seen } };
}

/** A guard who moved has not yet looked along the new arc; the straight way may lead through a turning one. */
function moved(state: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const by = said(event, fact.seenFrom ?? null);
  const engine = fact.engine ?? 0;
  const around = fact.walkedAround === true;
  const before = state.guard;
  if (before?.engine === engine)
    return { ...state, guard: { ...by, engine, crossed: around ? null : before.crossed } };
  const crossed = around ? undefined : turningOnTheWay(state, before?.engine ?? null, engine);
  return { ...state, guard: { ...by, engine, crossed: crossed ?? null }, arcs: {} };
}
