import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Unrecorded } from "../../shared/protocol/wire.ts";

/** Who hears of what sessions do: the sockets. Called after the commit, in order, in the turn it became true. */
export interface Audience {
  recorded(session: string, events: SessionEvent[]): void;
  /** A stop that could not be written down is passed on all the same. */
  unrecorded(notice: Unrecorded): void;
  /** The list of sessions changed. */
  ramp(): void;
}

export const nobody: Audience = { recorded() {}, unrecorded() {}, ramp() {} };
