import { Suspense } from "react";
import { later } from "../../ui/later.tsx";
import { CheckList } from "../shared/CheckList.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";

const Services = later(() => import("./Services.tsx").then((m) => m.Services));
const VoltsNow = later(() => import("./VoltsNow.tsx").then((m) => m.VoltsNow));
const VoltTrace = later(() => import("./VoltTrace.tsx").then((m) => m.VoltTrace));

/** The ground power panel: cart, volts, connect and disconnect, chocks. */
export function GroundPowerPanel({ panel, stale }: { panel: Panel; stale: string | null }) {
  return (
    <PanelFrame
      panel={panel}
      stale={stale}
      kind="groundPower"
      below={
        <Suspense fallback={<section className="volts-now" />}>
          <VoltsNow panel={panel} />
        </Suspense>
      }
    >
      <CheckList panel={panel} />
      <Suspense>
        <Services panel={panel} />
        <VoltTrace panel={panel} />
      </Suspense>
    </PanelFrame>
  );
}
