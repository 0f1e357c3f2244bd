import { useEffect } from "react";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { useConnectionView } from "./app.ts";
import type { Connection } from "./connection.ts";
import { eventsSince } from "./eventsSince.ts";
import { wholeUpTo } from "./log.ts";

/** Returns the whole record of the watched session: events from the connection, and earlier ones fetched over HTTP. */
export function useRecord(connection: Connection, session: string, head: number): readonly SessionEvent[] {
  const { events } = useConnectionView(connection);
  const whole = wholeUpTo(events);
  useEffect(() => {
    if (whole >= head) return;
    eventsSince(session, whole).then(
      (fetched) => connection.addHistory(session, fetched),
      () => undefined,
    );
  }, [session, connection, whole, head]);
  return events;
}
