import type { RunUpCheck } from "../../runUp/checkItems.ts";
import type { RunUpFaultKind } from "../../runUp/fault.ts";

export const runUpChecks: Readonly<Record<RunUpCheck, string>> = {
  power: "power",
  magneto: "magnetos",
  feather: "feathering",
};

export const runUpFaults: Readonly<Record<RunUpFaultKind, string>> = {
  belowMin: "is below its minimum",
  over: "is above its maximum",
  notRead: "has not been read since warm-up began",
  unreadable: "cannot be judged",
  notDone: "not done",
  leftOverMax: "the left drop is too large",
  rightOverMax: "the right drop is too large",
  uneven: "the drops are uneven",
  leftNoDrop: "no drop on the left: not grounded, or timing",
  rightNoDrop: "no drop on the right: not grounded, or timing",
  noResponse: "the propeller did not answer",
  overMax: "pulled out too late: the drop is too large",
  notRecovered: "the speed did not come back",
  spread: "manifold pressures differ too much",
};
