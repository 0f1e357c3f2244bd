import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Links, Unrecorded, WireError } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Outgoing } from "./outgoing.ts";

export type Phase = "connecting" | "live" | "lost" | "signedOut" | "mismatch";

/** What the panels see of the link. A new object whenever something in it changed. */
export interface LinkView {
  phase: Phase;
  /** Panel clock when anything last came from the server, milliseconds; null before the first. */
  lastHeard: number | null;
  session: string | null;
  state: SessionState | null;
  links: Links | null;
  /** Events held of the session, in order; from the beginning only after the history was fetched. */
  events: readonly SessionEvent[];
  outgoing: readonly Outgoing[];
  /** Rises when the list of sessions changed. */
  ramp: number;
  /** Why nothing of the session can be had. */
  trouble: WireError | null;
  /** Stops the server passed on without being able to write them down. */
  unrecorded: readonly Unrecorded[];
  /** What waits to be sent is written down and outlives this window. */
  lasting: boolean;
  /** A session not watched here in which something this person gave waits for the link or for their word. */
  unsettled: string | null;
}

/** What they see before anything came. */
export const NOTHING: LinkView = {
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
  lasting: true,
  unsettled: null,
};
