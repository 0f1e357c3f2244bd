import { isTurning } from "../engine/life.ts";
import type { Action } from "../protocol/commands.ts";
import { stageAfter } from "../protocol/stages.ts";
import { purposeOf, type SessionState, stopOpen } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { isOrderOf } from "../types/isOrderOf.ts";
import { decideAbandon } from "./abandon.ts";
import { mayGoBack } from "./goingBack.ts";
import { leavesBrief } from "./leavesBrief.ts";
import { adviceIn } from "./orderFor.ts";
import { missingFor } from "./requirements.ts";

type PlanAction = Extract<Action, { type: "confirmBrief" | "amendPlan" | "advance" | "abandon" }>;

/** Decides the actions of the session's course: brief, plan, stages, end. */
export function decidePlan(state: SessionState, action: PlanAction, context: Context): Verdict {
  switch (action.type) {
    case "confirmBrief": {
      if (context.post === null) return refuse("wrongPost");
      if (state.posts[context.post]?.briefed) return refuse("alreadyDone");
      return accept({ type: "briefed", post: context.post });
    }
    case "amendPlan": {
      const { order } = action;
      if (order && !isOrderOf(order, state.type)) return refuse("badOrder", { found: order.join("-") });
      const dropped = order && state.engines.find((e) => isTurning(e.life) && !order.includes(e.n));
      if (dropped) return refuse("badOrder", { engine: dropped.n, found: dropped.life.is });
      // Once the crew is briefed, a change of plan needs a recorded reason.
      if (state.stage !== "plan" && action.reason === undefined)
        return refuse("missingFigure", { found: "reason" });
      const advice = order ? adviceIn(state, order) : null;
      // The crew may choose another order than the advised one; their reason is recorded.
      if (advice && advice.order.join() !== order?.join() && action.reason === undefined) {
        return refuse("missingFigure", { found: "reason" });
      }
      return accept({ ...action, type: "planAmended", ...(advice ? { orderAdvice: advice } : {}) });
    }
    case "advance": {
      if (action.to === "starting" && mayGoBack(state)) {
        return stopOpen(state) ? refuse("stopOpen") : accept({ type: "stageReached", stage: "starting" });
      }
      const next = stageAfter(state.stage, purposeOf(state));
      if (action.to !== next)
        return refuse("wrongStage", { found: state.stage, ...(next ? { stages: [next] } : {}) });
      if (stopOpen(state)) return refuse("stopOpen");
      if (leavesBrief(action) && context.elsewhere !== undefined)
        return refuse("aircraftBusy", { found: context.elsewhere });
      const missing = missingFor(state, context.now);
      if (missing.length > 0) return refuse("requirementsUnmet", { missing });
      return accept({ type: "stageReached", stage: action.to });
    }
    case "abandon":
      return decideAbandon(state, action.reason, context);
  }
}
