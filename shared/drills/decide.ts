import type { Action } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { lacksDefect } from "./step.ts";

type DrillAction = Extract<Action, { type: "startDrill" | "drillStep" | "endDrill" }>;

/**
 * Decides an action on a drill. A drill is data of the type. The program keeps its card and its times, and never acts
 * on an engine.
 */
export function decideDrill(state: SessionState, action: DrillAction, context: Context): Verdict {
  if (action.type === "startDrill") {
    if (!state.type.drills.some((d) => d.id === action.drill)) {
      return refuse("noSuchDrill", { found: state.type.drills.map((d) => d.id).join(", ") });
    }
    if (action.engine !== undefined && !engineOf(state, action.engine)) {
      return refuse("noSuchEngine", { engine: action.engine, found: `1 to ${state.engines.length}` });
    }
    const running = state.drills.some(
      (r) => r.drill === action.drill && r.engine === (action.engine ?? null),
    );
    if (running) return refuse("alreadyDone");
    return accept({ ...action, type: "drillStarted" });
  }
  const run = state.drills.find((r) => r.id === action.run);
  if (!run) return refuse("nothingOpen");
  if (action.type === "endDrill") return accept({ ...action, type: "drillEnded" });
  const post = context.post;
  if (!post) return refuse("wrongPost");
  const step = run.steps[post][action.step];
  if (step === undefined) return refuse("noSuchDrill", { found: String(action.step) });
  if (step !== null) return refuse("alreadyDone");
  const card = state.type.drills.find((d) => d.id === run.drill)?.cards[post][action.step];
  if (action.done && card && lacksDefect(state, run, card))
    return refuse("missingFigure", { found: "defect" });
  return accept({ ...action, type: "drillStepped", post });
}
