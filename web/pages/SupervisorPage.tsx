import "../styles/past.css";
import { useMemo, useState } from "react";
import { askedOf } from "../../shared/asks/asked.ts";
import { applyBatch } from "../../shared/replica/replica.ts";
import { useLinkView } from "../net/app.ts";
import type { Link } from "../net/link.ts";
import { wholeUpTo } from "../net/log.ts";
import { useRecord } from "../net/useRecord.ts";
import type { Panel } from "../posts/shared/model.ts";
import { PastPanel } from "../posts/supervisor/PastPanel.tsx";
import { SupervisorPanel } from "../posts/supervisor/SupervisorPanel.tsx";
import { PaperKey } from "./PaperKey.tsx";
import { go } from "./route.ts";
import { stripsOf } from "./strips.ts";
import { useSessions } from "./useSessions.ts";

/** Danger and alerts: asks of this weight and heavier end a look back. */
const PRESSING = 1;

/** The supervisor's panel with what only it needs: every session, and this one's whole record. */
export function SupervisorPage({ panel, stale, link }: { panel: Panel; stale: string | null; link: Link }) {
  const { ramp } = useLinkView(link);
  const { listed } = useSessions(ramp, panel.words);
  const id = panel.state.id;
  const events = useRecord(link, id, panel.state.seq);
  const strips = listed && stripsOf(listed, id, panel.words).filter((s) => !s.over);
  const [past, setPast] = useState<number | null>(null);
  const then = useMemo(
    () => (past === null ? null : applyBatch(null, events.slice(0, past)).state),
    [past, events],
  );
  // What presses now is not waited with for somebody who looks at what was.
  const presses = askedOf(panel.state, "supervisor", panel.now).some((a) => a.weight <= PRESSING);
  if (presses && past !== null) setPast(null);
  if (then)
    return (
      <PastPanel
        stale={stale}
        panel={panel}
        events={events}
        then={then}
        onAt={setPast}
        onNow={() => setPast(null)}
      />
    );
  return (
    <SupervisorPanel
      panel={panel}
      stale={stale}
      events={events}
      strips={strips}
      keys={
        <div className="sequence-keys">
          <button
            type="button"
            className="small-key"
            disabled={wholeUpTo(events) < panel.state.seq || presses}
            onClick={() => setPast(panel.state.seq)}
          >
            {panel.words.text.past.lookBack}
          </button>
          <PaperKey path={`/api/sessions/${id}/record.pdf`} word={panel.words.text.record.print} />
        </div>
      }
      onOpen={(session) => go(`/session/${session}`)}
    />
  );
}
