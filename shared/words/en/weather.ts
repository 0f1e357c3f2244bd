import type { LightningAct } from "../../protocol/lightningActs.ts";

/** The act asked of a post while lightning stops work. */
export const lightningActs: Readonly<Record<LightningAct, string>> = {
  startNothing: "Start nothing.",
  leaveAircraft: "Start nothing. Leave the aircraft and go into shelter.",
  shelter: "Go into shelter and wait there.",
  clearOfCable: "Touch neither cable nor cart. Stay clear of both, in shelter.",
  unplug: "With the crew's permission: output off and unplug. Then stay clear of cable and cart.",
  clearRamp: "Clear nothing. See that nobody stays outside.",
};
