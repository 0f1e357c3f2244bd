import { CheckList } from "../shared/CheckList.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";
import { GuardKeys } from "./GuardKeys.tsx";

/** The fire guard's panel: one engine, guard in place, arc clear or not. Made for one hand on a telephone. */
export function FireGuardPanel({ panel, stale }: { panel: Panel; stale: string | null }) {
  return (
    <PanelFrame panel={panel} stale={stale} kind="fireGuard">
      <GuardKeys panel={panel} />
      <CheckList panel={panel} />
    </PanelFrame>
  );
}
