import type { Append, EventStore } from "../store/events.ts";
import { TRACES, traced } from "../telemetry/trace.ts";

/**
 * Appends events and publishes the duration to tracers.
 * @throws what `append` throws
 */
export function appendTraced(store: EventStore, append: Append): Promise<void> {
  const { expected, events, row } = append;
  return traced(
    TRACES.append,
    () => store.append(append),
    (outcome) => ({
      session: row.id,
      from: expected + 1,
      to: expected + events.length,
      commands: [...new Set(events.flatMap((e) => e.command ?? []))],
      kept: "value" in outcome,
    }),
  );
}
