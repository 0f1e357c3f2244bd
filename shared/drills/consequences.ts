import type { Fact } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { drillCauses } from "./causes.ts";

/**
 * Returns the facts that open the type's drills for present causes: once for each cause, and never twice at the same
 * place at once.
 */
export function drillConsequences(state: SessionState): Fact[] {
  const open = new Set(state.drills.map((r) => `${r.drill} ${r.engine}`));
  return drillCauses(state).flatMap(({ drill, ref, engine }): Fact[] => {
    const card = `${drill} ${engine}`;
    if (open.has(card) || state.drillsOpened.includes(ref)) return [];
    open.add(card);
    return [{ type: "drillStarted", drill, ref, ...(engine === null ? {} : { engine }) }];
  });
}
