import "../styles/past.css";
import { useMemo, useState } from "react";
import { askedOf } from "../../shared/asks/asked.ts";
import { applyBatch } from "../../shared/replica/replica.ts";
import { useConnectionView } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import { wholeUpTo } from "../net/log.ts";
import { useRecord } from "../net/useRecord.ts";
import type { Panel } from "../posts/shared/model.ts";
import { PastPanel } from "../posts/supervisor/PastPanel.tsx";
import { SupervisorPanel } from "../posts/supervisor/SupervisorPanel.tsx";
import { useLaterWords } from "../words/later.ts";
import { PaperKey } from "./PaperKey.tsx";
import { go } from "./route.ts";
import { stripsOf } from "./strips.ts";
import { useSessions } from "./useSessions.ts";

/** Largest weight of an ask that ends the look back: danger (0) and alert (1). */
const PRESSING = 1;

/** The supervisor's panel with the data only it needs: all sessions, and the whole record of this one. */
export function SupervisorPage({
  panel,
  stale,
  connection,
}: {
  panel: Panel;
  stale: string | null;
  connection: Connection;
}) {
  const { ramp } = useConnectionView(connection);
  const later = useLaterWords();
  const { listed } = useSessions(ramp, panel.words);
  const id = panel.state.id;
  const events = useRecord(connection, id, panel.state.seq);
  const strips = listed && stripsOf(listed, id, panel.words, panel.now).filter((s) => !s.over);
  const [past, setPast] = useState<number | null>(null);
  const { words } = panel;
  const then = useMemo(() => {
    const state = past === null ? null : applyBatch(null, events.slice(0, past)).state;
    return state && words.stateIn(state);
  }, [past, events, words]);
  // A danger or an alert ends the look back at once.
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
        <div className="exchange-keys">
          <button
            type="button"
            className="small-key"
            disabled={wholeUpTo(events) < panel.state.seq || presses}
            onClick={() => setPast(panel.state.seq)}
          >
            {later.past.lookBack}
          </button>
          <PaperKey path={`/api/sessions/${id}/record.pdf`} word={later.record.print} />
        </div>
      }
      onOpen={(session) => go(`/session/${session}`)}
    />
  );
}
