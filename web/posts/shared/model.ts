import type { Confirmed } from "../../../shared/asks/ask.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { Refusal } from "../../../shared/protocol/refusal.ts";
import type { Links, Unrecorded, WireError } from "../../../shared/protocol/wire.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { Words } from "../../words/words.ts";

/** Something this person sent, as far as the panels need it. */
export interface SentItem {
  id: string;
  action: Action;
  /** Panel clock when it was given, milliseconds. */
  at: number;
  fate:
    | { is: "sending"; tries: number }
    | { is: "recorded"; seq: number }
    | { is: "refused"; refusal: Refusal }
    | { is: "lapsed"; tries: number }
    | { is: "failed"; error: WireError };
}

export interface Somebody {
  id: string;
  name: string;
  mayHold: readonly Post[];
}

/** Everything a post's panel is drawn from, and the few things it can do. */
export interface Panel {
  state: SessionState;
  /** The post this person holds on this device; null for an observer. */
  post: Post | null;
  me: Somebody;
  /** What the panel says, in the language this person chose. */
  words: Words;
  people: readonly Somebody[];
  /** Estimated server time, milliseconds. */
  now: number;
  links: Links | null;
  /** The server was heard lately: what is shown may be acted on. */
  fresh: boolean;
  sent: readonly SentItem[];
  /** Stops passed on that no record holds. */
  unrecorded: readonly Unrecorded[];
  /** The id it goes under; null when it cannot go because the server's time is unknown. */
  act(action: Action, confirmed?: Confirmed): string | null;
  /** Asks the server whether this is the person's PIN; rejects with the reason in words. */
  confirm(pin: string): Promise<Confirmed>;
  sendAnew(id: string): void;
  drop(id: string): void;
  /** A stop no record holds was taken in by this person: it is shown no more. */
  takeIn(notice: Unrecorded): void;
}
