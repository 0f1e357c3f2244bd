import { Suspense } from "react";
import { later } from "../../ui/later.tsx";
import { CheckList } from "../shared/CheckList.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";

const StandBy = later(() => import("./StandBy.tsx").then((m) => m.StandBy));
const GuardKeysBelow = later(() => import("./StandBy.tsx").then((m) => m.GuardKeysBelow));

/** The fire guard's panel: one engine, guard in place, arc clear or not. Made for one hand on a telephone. */
export function FireGuardPanel({ panel, stale }: { panel: Panel; stale: string | null }) {
  return (
    <PanelFrame
      panel={panel}
      stale={stale}
      kind="fireGuard"
      idle={(facing, otherwise) => (
        <Suspense fallback={otherwise}>
          <StandBy panel={panel} facing={facing} otherwise={otherwise} />
        </Suspense>
      )}
    >
      <Suspense fallback={null}>
        <GuardKeysBelow panel={panel} />
      </Suspense>
      <CheckList panel={panel} />
    </PanelFrame>
  );
}
