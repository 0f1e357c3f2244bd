import type { Bus, Others, Word } from "../../server/many/bus.ts";

type Listener = Parameters<Bus["listen"]>[0];

/** Where servers of one process meet. What they say can be lost on the way. */
export class Meeting {
  /** Nothing is heard, though everybody thinks it is. */
  deaf = false;
  /** Everybody knows that nothing is heard. */
  down = false;
  /** What becomes of a word on the way. */
  spoil: (word: Word) => Word = (word) => word;
  readonly said: Word[] = [];
  readonly #listeners = new Map<string, Listener>();
  #servers = 0;

  /** A newcomer; the first is alone, and says so to its own sessions. */
  join(): Others {
    this.#servers += 1;
    const server = `server-${this.#servers}`;
    const first = this.#servers === 1;
    const meeting = this;
    const bus: Bus = {
      get up() {
        return !meeting.down;
      },
      say: (word) => this.#say(server, word),
      listen: (listener) => void this.#listeners.set(server, listener),
      async close() {},
    };
    return { bus, server, enter: async (alone) => (first ? alone() : undefined) };
  }

  /** Says something once more, as a bus may. */
  repeat(word: Word): void {
    for (const { word: hear } of this.#listeners.values()) hear(word);
  }

  #say(from: string, word: Word): void {
    this.said.push(word);
    if (this.deaf || this.down) return;
    for (const [server, { word: hear }] of this.#listeners)
      if (server !== from) setImmediate(() => hear(structuredClone(this.spoil(word))));
  }
}
