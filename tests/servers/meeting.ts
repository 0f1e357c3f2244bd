import type { Bus, Others, PeerMessage } from "../../server/many/bus.ts";

type Listener = Parameters<Bus["listen"]>[0];

/** A bus for servers in one process. It can lose messages. */
export class Meeting {
  /** Nothing is heard, and nobody knows it. */
  deaf = false;
  /** Nothing is heard, and everybody knows it. */
  down = false;
  /** Changes a message on its way. */
  spoil: (message: PeerMessage) => PeerMessage = (message) => message;
  readonly said: PeerMessage[] = [];
  readonly #listeners = new Map<string, Listener>();
  #servers = 0;

  /** Returns a new member. The first member is alone, so only its own sessions hear it. */
  join(): Others {
    this.#servers += 1;
    const server = `server-${this.#servers}`;
    const first = this.#servers === 1;
    const meeting = this;
    const bus: Bus = {
      get up() {
        return !meeting.down;
      },
      send: (message) => this.#send(server, message),
      listen: (listener) => void this.#listeners.set(server, listener),
      async close() {},
    };
    return { bus, server, enter: async (alone) => (first ? alone() : undefined) };
  }

  /** Delivers a message once more, as a bus may. */
  repeat(message: PeerMessage): void {
    for (const { message: hear } of this.#listeners.values()) hear(message);
  }

  #send(from: string, message: PeerMessage): void {
    this.said.push(message);
    if (this.deaf || this.down) return;
    for (const [server, { message: hear }] of this.#listeners)
      if (server !== from) setImmediate(() => hear(structuredClone(this.spoil(message))));
  }
}
