import { conditionOf } from "../conditions/all.ts";
import type { Action } from "../protocol/commands.ts";
import { isAnother } from "../session/another.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { seenAside } from "./seen.ts";

/**
 * Decides an override. It takes two different people on two devices, the second within the type's time, and each enters
 * the engine and a reason. The second person's action is the same as the first's.
 */
export function decideOverride(
  state: SessionState,
  action: Extract<Action, { type: "override" }>,
  context: Context,
): Verdict {
  if (!engineOf(state, action.engine)) {
    return refuse("noSuchEngine", { engine: action.engine, found: `1 to ${state.engines.length}` });
  }
  if (!state.type.overridable.includes(action.condition) || !conditionOf(action.condition).mayBeSetAside) {
    return refuse("notOverridable", { found: action.condition });
  }
  const { condition, engine, reason } = action;
  const open = state.overrides.find((o) => o.condition === condition && o.engine === engine);
  if (!open) {
    const finding = conditionOf(condition).find(state, engine, context.now);
    const seen = seenAside(state, condition, engine, finding, context.now);
    return accept({ type: "overrideAsked", condition, engine, reason, seen });
  }
  if (open.second) return refuse("alreadyDone");
  if (!isAnother(context.person, open.first)) {
    return refuse("secondPersonNeeded", { found: open.first.name, posts: ["cockpit", "supervisor"] });
  }
  return accept({ type: "overrideGiven", override: open.id, reason });
}
