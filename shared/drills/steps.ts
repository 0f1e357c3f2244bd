import type { DrillRun } from "../session/state.ts";
import type { Drill } from "../types/drill.ts";

/** Returns the steps of a drill's cards with none of them done. */
export function nothingDone({
  cockpit,
  fireGuard,
  groundPower,
  supervisor,
}: Drill["cards"]): DrillRun["steps"] {
  const none = (card: readonly unknown[]) => card.map(() => null);
  return {
    cockpit: none(cockpit),
    fireGuard: none(fireGuard),
    groundPower: none(groundPower),
    supervisor: none(supervisor),
  };
}
