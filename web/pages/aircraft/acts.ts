import type { RegisteredAircraft } from "../../net/aircraft.ts";

/** The change that is being entered; null while the page is read. */
export type Doing = "change" | "hours" | "retire" | null;

/** The properties of each form that changes an aircraft. */
export interface ActProps {
  row: RegisteredAircraft;
  /** The change was made: read the aircraft again. */
  onDone(): void;
  onLeave(): void;
  onTrouble(error: Error): void;
}
