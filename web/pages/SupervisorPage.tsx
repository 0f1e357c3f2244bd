import { useLinkView } from "../net/app.ts";
import type { Link } from "../net/link.ts";
import { useRecord } from "../net/useRecord.ts";
import type { Panel } from "../posts/shared/model.ts";
import { SupervisorPanel } from "../posts/supervisor/SupervisorPanel.tsx";
import { go } from "./route.ts";
import { stripsOf } from "./strips.ts";
import { useSessions } from "./useSessions.ts";

/** The supervisor's panel with what only it needs: every session, and this one's whole record. */
export function SupervisorPage({ panel, stale, link }: { panel: Panel; stale: string | null; link: Link }) {
  const { ramp } = useLinkView(link);
  const { listed } = useSessions(ramp, panel.words);
  const id = panel.state.id;
  const events = useRecord(link, id, panel.state.seq);
  const strips = stripsOf(listed ?? [], id, panel.words).filter((s) => !s.over);
  return (
    <SupervisorPanel
      panel={panel}
      stale={stale}
      events={events}
      strips={strips}
      onOpen={(session) => go(`/session/${session}`)}
    />
  );
}
