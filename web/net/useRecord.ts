import { useEffect } from "react";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { api, useLinkView } from "./app.ts";
import type { Link } from "./link.ts";
import { wholeUpTo } from "./log.ts";

/** The whole record of the session that is watched: what came by the link, and what came before it fetched. */
export function useRecord(link: Link, session: string, head: number): readonly SessionEvent[] {
  const { events } = useLinkView(link);
  const whole = wholeUpTo(events);
  useEffect(() => {
    if (whole >= head) return;
    api.events(session, whole).then(
      (fetched) => link.addHistory(session, fetched),
      () => undefined,
    );
  }, [session, link, whole, head]);
  return events;
}
