import { cardLowers } from "../card/decide.ts";
import { traceLowers } from "../power/decideTrace.ts";
import type { Action, ActionType } from "../protocol/commands.ts";
import { checkLowers, readingLowers } from "../readings/lowers.ts";
import type { SaidClass } from "../signals/definition.ts";
import { sentAs } from "../signals/sentAs.ts";
import { windLowers } from "../weather/lowers.ts";
import type { SessionState } from "./state.ts";

type Other = Exclude<ActionType, "send">;
type OtherAction<T extends Other> = Extract<Action, { type: T }>;

/** Which of the actions that are no signals lower confidence, always or by what they say. The rest raise it or ask. */
const LOWERS: {
  readonly [T in Other]: false | ((state: SessionState | null, action: OtherAction<T>) => boolean);
} = {
  answer: false,
  reading: readingLowers,
  recordCheck: checkLowers,
  answerCard: cardLowers,
  readCard: false,
  giveVoltTrace: traceLowers,
  showEquipment: false,
  claimPost: false,
  leavePost: false,
  offerPost: false,
  acceptPost: false,
  vacatePost: false,
  confirmBrief: false,
  amendPlan: false,
  advance: false,
  abandon: false,
  acknowledgeAlert: false,
  shelveAlert: false,
  present: false,
  delivered: false,
  override: false,
  countBlades: (_state, { resistance }) => resistance,
  recordWeather: windLowers,
  // A flash only stops work; how far away one was that is known already can let work continue.
  recordFlash: (_state, { of }) => of === undefined,
  recordRunUp: false,
  writeDefect: (_state, { barsStart }) => barsStart,
  closeDefect: false,
  startDrill: false,
  drillStep: false,
  endDrill: false,
};

/** The class of an action. Without a state, e.g. on a panel that writes it down, no figure is judged. */
export function saidAs(state: SessionState | null, action: Action): SaidClass {
  if (action.type === "send") return sentAs(state, action);
  return lowers(state, action) ? "lowers" : "raises";
}

function lowers(state: SessionState | null, action: Exclude<Action, { type: "send" }>): boolean {
  // Each rule takes the action of its own type: the table's type says so, and one call cannot.
  const rule = LOWERS[action.type] as false | ((state: SessionState | null, action: Action) => boolean);
  return rule !== false && rule(state, action);
}
