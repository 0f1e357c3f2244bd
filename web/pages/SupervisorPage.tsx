import { useEffect } from "react";
import { api, useLinkView } from "../net/app.ts";
import type { Link } from "../net/link.ts";
import { wholeUpTo } from "../net/log.ts";
import type { Panel } from "../posts/shared/model.ts";
import { SupervisorPanel } from "../posts/supervisor/SupervisorPanel.tsx";
import { go } from "./route.ts";
import { stripOf, useSessions } from "./useSessions.ts";

/** The supervisor's panel with what only it needs: every session, and this one's whole record. */
export function SupervisorPage({ panel, stale, link }: { panel: Panel; stale: string | null; link: Link }) {
  const { events, ramp } = useLinkView(link);
  const { listed } = useSessions(ramp, panel.words);
  const id = panel.state.id;
  const head = panel.state.seq;
  const whole = wholeUpTo(events);
  useEffect(() => {
    if (whole >= head) return;
    api.events(id, whole).then(
      (fetched) => link.addHistory(id, fetched),
      () => undefined,
    );
  }, [id, link, whole, head]);
  const strips = (listed ?? []).map((l) => stripOf(l, id, panel.words)).filter((s) => !s.over);
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
