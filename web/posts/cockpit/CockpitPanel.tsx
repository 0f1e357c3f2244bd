import { type ReactNode, Suspense } from "react";
import { later } from "../../ui/later.tsx";
import { CheckList } from "../shared/CheckList.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";

const CardLine = later(() => import("../shared/CardLine.tsx").then((m) => m.CardLine));
const EngineTable = later(() => import("./EngineTable.tsx").then((m) => m.EngineTable));

interface Props {
  panel: Panel;
  stale: string | null;
  /** Strip charts of readings; passed in because they need the whole record. */
  readings: ReactNode;
}

/** The cockpit's panel: every engine's times and readings, beside the current ask. */
export function CockpitPanel({ panel, stale, readings }: Props) {
  const table = (
    <>
      {/* Before the table, so that the whole card is one touch away on a tablet held upright. */}
      <CardLine panel={panel} />
      <EngineTable state={panel.state} now={panel.now} />
    </>
  );
  // During a start the times stand directly below the ask, above the fold of a tablet.
  const starting = panel.state.stage === "starting";
  return (
    <PanelFrame
      panel={panel}
      stale={stale}
      kind="cockpit"
      below={starting && <Suspense fallback={<div className="table-to-come" />}>{table}</Suspense>}
    >
      {/* Together, so that nothing that is shown moves. */}
      <Suspense fallback={<div data-asking="true" />}>
        {!starting && table}
        {readings}
        <CheckList panel={panel} />
      </Suspense>
    </PanelFrame>
  );
}
