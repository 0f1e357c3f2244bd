import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Links, Unrecorded, WireError } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Outgoing } from "./outgoing.ts";

export type Phase = "connecting" | "live" | "lost" | "signedOut" | "mismatch";

/** The state of the connection as panels see it. A new object on each change. */
export interface ConnectionView {
  phase: Phase;
  /** Panel clock when the last message from the server arrived, milliseconds; null before the first. */
  lastHeard: number | null;
  session: string | null;
  state: SessionState | null;
  links: Links | null;
  /** Events of the session held here, in order. They start at the beginning only after the history was fetched. */
  events: readonly SessionEvent[];
  outgoing: readonly Outgoing[];
  /** Counts changes of the list of sessions. */
  ramp: number;
  /** The reason why the session cannot be read, or null. */
  trouble: WireError | null;
  /** Stops that the server passed on but could not record. */
  unrecorded: readonly Unrecorded[];
  /** False while the server says that it cannot record. */
  recording: boolean;
  /** True while unsent messages are stored and survive this window. */
  lasting: boolean;
  /** Another session in which a message of this person is unsent or needs their decision. */
  unsettled: string | null;
}

/** The view before the first message. */
export const NOTHING: ConnectionView = {
  phase: "connecting",
  lastHeard: null,
  session: null,
  state: null,
  links: null,
  events: [],
  outgoing: [],
  ramp: 0,
  trouble: null,
  unrecorded: [],
  recording: true,
  lasting: true,
  unsettled: null,
};
