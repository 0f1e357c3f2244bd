import type { SessionState } from "../../../shared/session/state.ts";
import { useUnits } from "../../ui/units.ts";
import type { Words } from "../../words/catalogue.ts";
import { planNotes } from "./planWords.ts";

/** The notes below the plan: chocks, brakes, power, guard, weather, defects, order. */
export function PlanNotes({ state, now, words }: { state: SessionState; now: number; words: Words }) {
  const units = useUnits();
  return (
    <ul className="plan-notes">
      {planNotes(state, now, units, words).map((n) => (
        <li key={n}>{n}</li>
      ))}
    </ul>
  );
}
