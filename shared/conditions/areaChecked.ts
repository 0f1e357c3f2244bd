import { standsOnCheck, whileStarting } from "./fromCheck.ts";

/**
 * The area was checked for loose gravel: never start with loose gravel beneath the propellers (1946 operations rule
 * 3032-1).
 */
export const areaChecked = standsOnCheck({
  id: "areaChecked",
  check: "area",
  scope: { clearance: "ifListed" },
  freshness: "area",
  mayBeSetAside: true,
  askedBefore: true,
  wanted: whileStarting,
});
