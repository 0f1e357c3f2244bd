import "../styles/readings.css";
import type { Connection } from "../net/connection.ts";
import { useRecord } from "../net/useRecord.ts";
import { Readings } from "../posts/cockpit/Readings.tsx";
import type { Panel } from "../posts/shared/model.ts";

/** The cockpit's readings over time, with the record they are drawn from. */
export function CockpitReadings({ panel, connection }: { panel: Panel; connection: Connection }) {
  const events = useRecord(connection, panel.state.id, panel.state.seq);
  return <Readings state={panel.state} events={events} now={panel.now} />;
}
