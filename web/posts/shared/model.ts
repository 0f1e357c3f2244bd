import type { Confirmed } from "../../../shared/asks/ask.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { Links, Unrecorded } from "../../../shared/protocol/wire.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { Outgoing } from "../../net/outgoing.ts";
import type { Words } from "../../words/catalogue.ts";

export interface Somebody {
  id: string;
  name: string;
  mayHold: readonly Post[];
}

/** The data and actions of a post's panel. */
export interface Panel {
  state: SessionState;
  /** The post this person holds on this device; null for an observer. */
  post: Post | null;
  me: Somebody;
  /** Id of this device: only the device that sent a stop can take it back as a slip. */
  device: string;
  /** All words, in the language this person chose. */
  words: Words;
  people: readonly Somebody[];
  /** Estimated server time, milliseconds. */
  now: number;
  links: Links | null;
  /** True when the server was heard recently, so that a person may act on the display. */
  fresh: boolean;
  sent: readonly Outgoing[];
  /** Stops that the server passed on but could not record. */
  unrecorded: readonly Unrecorded[];
  /** Sends an action. Returns its command id, or null when it cannot be sent because the server's time is unknown. */
  act(action: Action, confirmed?: Confirmed): string | null;
  /** Checks the person's PIN at the server; rejects with the reason in words. */
  confirm(pin: string): Promise<Confirmed>;
  sendAnew(id: string): void;
  drop(id: string): void;
  /** Hides an unrecorded stop after this person confirmed it. */
  takeIn(notice: Unrecorded): void;
}
