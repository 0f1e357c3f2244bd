import type { Fact } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { drillCauses, isCardOf } from "./causes.ts";

/**
 * Returns the facts that open the type's drills for present causes: once for each cause, and never twice at the same
 * place at once. A card that a fire opened for the whole aircraft stays that one card when its engine becomes known: it
 * bars every engine, which is the safe side.
 */
export function drillConsequences(state: SessionState): Fact[] {
  const open: Parameters<typeof isCardOf>[1][] = [...state.drills];
  return drillCauses(state).flatMap((cause): Fact[] => {
    const { drill, ref, engine } = cause;
    if (state.drillsOpened.includes(ref) || open.some((card) => isCardOf(cause, card))) return [];
    open.push({ drill, engine, ref });
    return [{ type: "drillStarted", drill, ref, ...(engine === null ? {} : { engine }) }];
  });
}
