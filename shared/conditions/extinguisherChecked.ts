import { standsOnCheck, whileStarting } from "./fromCheck.ts";

/** The guard's extinguisher is checked and has at least the type's size (5 lb CO2 or more: FAA-H-8083-30 text). */
export const extinguisherChecked = standsOnCheck({
  id: "extinguisherChecked",
  check: "extinguisher",
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  wanted: whileStarting,
});
