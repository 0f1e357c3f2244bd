import type { RegisteredAircraft } from "../../net/aircraft.ts";

/** What is done on the page instead of reading it. */
export type Doing = "change" | "hours" | "retire" | null;

/** What a part of the page that changes an aircraft is given. */
export interface ActProps {
  row: RegisteredAircraft;
  /** The change was made: read the aircraft again. */
  onDone(): void;
  onLeave(): void;
  onTrouble(error: Error): void;
}
