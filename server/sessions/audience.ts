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

/** Everybody who wants to be told. */
export class Audiences implements Audience {
  readonly #all = new Set<Audience>();

  /** Returns a function that takes the audience out again. */
  add(audience: Audience): () => void {
    this.#all.add(audience);
    return () => this.#all.delete(audience);
  }

  recorded(session: string, events: SessionEvent[]): void {
    for (const one of this.#all) one.recorded(session, events);
  }

  unrecorded(notice: Unrecorded): void {
    for (const one of this.#all) one.unrecorded(notice);
  }

  ramp(): void {
    for (const one of this.#all) one.ramp();
  }
}
