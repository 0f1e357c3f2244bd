import { cardLowers } from "../card/lowers.ts";
import { traceLowers } from "../power/traceLowers.ts";
import type { Action } from "../protocol/commands.ts";
import { checkLowers, readingLowers } from "../readings/lowers.ts";
import type { SaidClass } from "../signals/definition.ts";
import { sentAs } from "../signals/sentAs.ts";
import { windLowers } from "../weather/lowers.ts";
import { type Other, type OtherAction, saidAs } from "./saidAs.ts";
import type { SessionState } from "./state.ts";

/** Actions whose figure decides whether they lower confidence. Apart from `saidAs`, because a panel need not judge. */
const BY_FIGURE: { readonly [T in Other]?: (state: SessionState, action: OtherAction<T>) => boolean } = {
  reading: readingLowers,
  recordCheck: checkLowers,
  answerCard: cardLowers,
  giveVoltTrace: traceLowers,
  recordWeather: windLowers,
};

/** Returns the class of an action, its figures judged by the state. */
export function judgedAs(state: SessionState, action: Action): SaidClass {
  if (action.type === "send") return sentAs(state, action);
  // Each rule takes the action of its own type: the table's type says so, and one call cannot.
  const lowers = BY_FIGURE[action.type] as ((state: SessionState, action: Action) => boolean) | undefined;
  if (lowers) return lowers(state, action) ? "lowers" : "raises";
  return saidAs(action);
}
