import type { FactOf, SessionEvent } from "../../protocol/events.ts";
import type { DrillRun, SessionState } from "../state.ts";

const OPENED_KEPT = 32;

/** A drill's card: opened, stepped through by each post, ended with its outcome. */
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
        steps: {
          cockpit: cards.cockpit.map(() => null),
          fireGuard: cards.fireGuard.map(() => null),
          groundPower: cards.groundPower.map(() => null),
          supervisor: cards.supervisor.map(() => null),
        },
      };
      const opened = fact.ref === undefined ? state.drillsOpened : [...state.drillsOpened, fact.ref];
      return { ...state, drills: [...state.drills, run], drillsOpened: opened.slice(-OPENED_KEPT) };
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
    case "drillEnded":
      return { ...state, drills: state.drills.filter((r) => r.id !== fact.run) };
  }
}
