import type { Action, ActionType } from "../protocol/commands.ts";
import type { SaidClass } from "../signals/definition.ts";
import { sentAs } from "../signals/sentAs.ts";

export type Other = Exclude<ActionType, "send">;
export type OtherAction<T extends Other> = Extract<Action, { type: T }>;

/** The actions that are no signals and lower confidence by their words alone. The rest raise it or ask. */
const LOWERS: { readonly [T in Other]: false | ((action: OtherAction<T>) => boolean) } = {
  answer: false,
  reading: false,
  recordCheck: ({ good }) => good === false,
  answerCard: ({ good }) => good === false,
  readCard: false,
  giveVoltTrace: false,
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
  countBlades: ({ resistance }) => resistance,
  recordWeather: false,
  // A flash only stops work; how far away one was that is known already can let work continue.
  recordFlash: ({ of }) => of === undefined,
  recordRunUp: false,
  writeDefect: ({ barsStart }) => barsStart,
  closeDefect: false,
  startDrill: false,
  drillStep: false,
  endDrill: false,
};

/** Returns the class of an action by its words alone, as a panel writes it down: no figure is judged. */
export function saidAs(action: Action): SaidClass {
  if (action.type === "send") return sentAs(null, action);
  // Each rule takes the action of its own type: the table's type says so, and one call cannot.
  const rule = LOWERS[action.type] as false | ((action: Action) => boolean);
  return rule !== false && rule(action) ? "lowers" : "raises";
}
