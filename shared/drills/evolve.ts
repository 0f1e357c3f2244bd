import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { DrillRun, SessionState } from "../session/state.ts";
import { drillCauses, isCardOf } from "./causes.ts";
import { nothingDone } from "./steps.ts";

/** Returns the state after an event of a drill: opened, a step done or left by a post, ended with its outcome. */
export function evolveDrill(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"drillStarted" | "drillStepped" | "drillEnded">,
): SessionState {
  switch (fact.type) {
    case "drillStarted": {
      const cards = state.type.drills.find((d) => d.id === fact.drill)?.cards;
      if (!cards) return state;
      const run: DrillRun = {
        id: event.seq,
        drill: fact.drill,
        engine: fact.engine ?? null,
        ref: fact.ref ?? null,
        at: event.at,
        steps: nothingDone(cards),
      };
      const refs = fact.ref === undefined ? [] : [fact.ref];
      return { ...state, drills: [...state.drills, run], drillsOpened: opened(state, refs) };
    }
    case "drillStepped":
      return {
        ...state,
        drills: state.drills.map((r) => {
          if (r.id !== fact.run) return r;
          const steps = r.steps[fact.post].map((s, i) =>
            i === fact.step ? { done: fact.done, at: event.at } : s,
          );
          return { ...r, steps: { ...r.steps, [fact.post]: steps } };
        }),
      };
    case "drillEnded": {
      // A second report of the same cause was worked on the same card.
      const run = state.drills.find((r) => r.id === fact.run);
      const worked = drillCauses(state).filter((c) => run !== undefined && isCardOf(c, run));
      return {
        ...state,
        drills: state.drills.filter((r) => r.id !== fact.run),
        drillsOpened: opened(
          state,
          worked.map((c) => c.ref),
        ),
      };
    }
  }
}

/** Returns the causes that have opened their drill and still exist; a cause that is gone can open none. */
function opened(state: SessionState, more: readonly number[]): number[] {
  const there = new Set(drillCauses(state).map((c) => c.ref));
  return [...new Set([...state.drillsOpened, ...more])].filter((ref) => there.has(ref));
}
