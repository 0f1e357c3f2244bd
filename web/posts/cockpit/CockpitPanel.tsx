import { CheckList } from "../shared/CheckList.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";
import { EngineTable } from "./EngineTable.tsx";

/** The cockpit: every engine's times and readings beside what is asked. */
export function CockpitPanel({ panel, stale }: { panel: Panel; stale: string | null }) {
  return (
    <PanelFrame panel={panel} stale={stale} kind="cockpit">
      <EngineTable state={panel.state} now={panel.now} />
      <CheckList panel={panel} />
    </PanelFrame>
  );
}
