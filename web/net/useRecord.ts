import { useEffect } from "react";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { api, useLinkView } from "./app.ts";
import type { Link } from "./link.ts";
import { wholeUpTo } from "./log.ts";

/** Returns the whole record of the watched session: events from the link, and earlier ones fetched over HTTP. */
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
