import "../../styles/register.css";
import "../../styles/history.css";
import type { Me } from "../../net/keep.ts";
import { AircraftHistoryPage } from "./AircraftHistoryPage.tsx";
import { EnginePage } from "./EnginePage.tsx";

/** The pages of what the record tells of an aircraft and of an engine. */
export function HistoryPages({
  of,
  me,
  changed,
}: {
  of: { aircraft: string } | { serial: string };
  me: Me;
  changed: number;
}) {
  return "serial" in of ? (
    <EnginePage key={of.serial} serial={of.serial} />
  ) : (
    <AircraftHistoryPage key={of.aircraft} id={of.aircraft} me={me} changed={changed} />
  );
}
