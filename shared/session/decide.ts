import { decideAlert } from "../alerts/decide.ts";
import { decideCard } from "../card/decide.ts";
import { decideDefect } from "../defects/decide.ts";
import { decideDrill } from "../drills/decide.ts";
import { decideEquipment } from "../equipment/decide.ts";
import { decideOverride } from "../overrides/decide.ts";
import { decidePlan } from "../plan/decide.ts";
import { decidePost } from "../posts/decide.ts";
import { decideVoltTrace } from "../power/decideTrace.ts";
import { decideBlades } from "../propeller/decide.ts";
import type { Action } from "../protocol/commands.ts";
import { decideCheck, decideReading } from "../readings/decide.ts";
import { decideRunUp } from "../runUp/decide.ts";
import { signalOf } from "../signals/all.ts";
import { decideAnswer } from "../signals/answer.ts";
import { decideDelivered } from "../signals/delivered.ts";
import { decideSend } from "../signals/send.ts";
import { decideFlash, decideWeather } from "../weather/decide.ts";
import { judgedAs } from "./judgedAs.ts";
import { mayDo, permissionFor } from "./permissions.ts";
import { isOver, type SessionState } from "./state.ts";
import { accept, type Context, refuse, type Verdict } from "./verdict.ts";

/**
 * Decides one action on the present state. Pure: the same inputs give the same verdict. A refusal says why, and which
 * posts could do it. `validUntil` is the server time after which the sender no longer wants the action. A stop, and a
 * report that lowers confidence, is never too late, and is accepted from anybody in every stage.
 */
export function decide(state: SessionState, action: Action, context: Context, validUntil?: number): Verdict {
  if (isOver(state)) return refuse("sessionOver", { found: state.stage });
  const late = validUntil !== undefined && context.now > validUntil;
  if (judgedAs(state, action) === "raises") {
    const fault = late ? refuse("tooLate") : misplaced(state, action, context);
    if (fault) return fault;
  }
  return decided(state, action, { ...context, late });
}

/** Returns the refusal of an action that raises confidence or asks, for its post, its stage or its witness. */
function misplaced(state: SessionState, action: Action, context: Context): Verdict | null {
  if (action.type === "send" && action.seenFrom !== undefined && !signalOf(action.kind).witnessable) {
    return refuse("notWitnessable");
  }
  const permission = permissionFor(action);
  if (!mayDo(permission, context.post)) {
    return refuse("wrongPost", permission.posts === "anyone" ? {} : { posts: [...permission.posts] });
  }
  if (!permission.stages.includes(state.stage)) {
    return refuse("wrongStage", { stages: [...permission.stages], found: state.stage });
  }
  return null;
}

function decided(state: SessionState, action: Action, context: Context): Verdict {
  switch (action.type) {
    case "send":
      return decideSend(state, action, context);
    case "answer":
      return decideAnswer(state, action, context);
    case "reading":
      return decideReading(state, action, context);
    case "recordCheck":
      return decideCheck(state, action, context);
    case "answerCard":
    case "readCard":
      return decideCard(state, action, context);
    case "claimPost":
    case "leavePost":
    case "offerPost":
    case "acceptPost":
    case "vacatePost":
      return decidePost(state, action, context);
    case "confirmBrief":
    case "amendPlan":
    case "advance":
    case "abandon":
      return decidePlan(state, action, context);
    case "acknowledgeAlert":
    case "shelveAlert":
      return decideAlert(state, action, context);
    case "present":
      return context.post ? accept({ type: "present", post: context.post }) : refuse("wrongPost");
    case "delivered":
      return decideDelivered(state, action, context);
    case "override":
      return decideOverride(state, action, context);
    case "countBlades":
      return decideBlades(state, action);
    case "recordWeather":
      return decideWeather(state, action, context);
    case "recordFlash":
      return decideFlash(state, action, context);
    case "giveVoltTrace":
      return decideVoltTrace(state, action, context);
    case "showEquipment":
      return decideEquipment(action, context);
    case "recordRunUp":
      return decideRunUp(state, action);
    case "writeDefect":
    case "closeDefect":
      return decideDefect(state, action);
    case "startDrill":
    case "drillStep":
    case "endDrill":
      return decideDrill(state, action, context);
  }
}
