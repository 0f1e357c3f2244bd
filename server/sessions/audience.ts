import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Unrecorded } from "../../shared/protocol/wire.ts";

/** Receives what sessions record, to send it to panels. Called after the commit, in the order of recording. */
export interface Audience {
  recorded(session: string, events: SessionEvent[]): void;
  /** A stop that could not be recorded; panels are told of it all the same. */
  unrecorded(notice: Unrecorded): void;
  /** The list of sessions changed. */
  ramp(): void;
}

export const nobody: Audience = { recorded() {}, unrecorded() {}, ramp() {} };
