import { standsOnCheck, whileStarting } from "./fromCheck.ts";

/** No fuelling and no spill within the type's distance (50 ft: TM 1-1500-204-23-1). */
export const fuellingClear = standsOnCheck({
  id: "fuellingClear",
  check: "fuelling",
  scope: { clearance: "ifListed" },
  freshness: "area",
  mayBeSetAside: true,
  askedBefore: true,
  wanted: whileStarting,
});
