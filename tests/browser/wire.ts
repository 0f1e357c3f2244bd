import type { BrowserContext, Page, WebSocketRoute } from "playwright-core";

/**
 * Returns the distinct ids of the commands. A command without an answer is sent again with the same id, which is no
 * fault.
 */
export const commandIds = (messages: readonly string[]) => [
  ...new Set(messages.map((message) => /"id":"([^"]+)"/.exec(message)?.[1])),
];

/**
 * The connection between a browser's windows and the server. A test can cut it, lose commands on it and listen to
 * it.
 */
export class Wire {
  /** Nothing passes in either direction, and no new connection opens. */
  #cut = false;
  /** Commands are lost on the way. */
  deaf = false;
  /** Every command that a person gave, as a window sent it. */
  readonly heard: string[] = [];
  /** Changes what a window sends; null leaves it unchanged. */
  change: ((message: string) => string) | null = null;
  readonly #open = new Set<WebSocketRoute>();

  static async of(where: BrowserContext | Page): Promise<Wire> {
    const wire = new Wire();
    await where.routeWebSocket(/\/live\//, (socket) => wire.#take(socket));
    return wire;
  }

  #take(socket: WebSocketRoute): void {
    if (this.#cut) return void socket.close();
    const onward = socket.connectToServer();
    this.#open.add(socket);
    socket.onMessage((message) => {
      const text = String(message);
      const command = text.includes('["command"') && !text.includes('"delivered"');
      if (command) this.heard.push(text);
      if (!(command && this.deaf)) onward.send(this.change?.(text) ?? message);
    });
    onward.onMessage((message) => socket.send(message));
    const over = () => {
      this.#open.delete(socket);
    };
    socket.onClose(() => {
      over();
      void onward.close();
    });
    onward.onClose(() => {
      over();
      void socket.close();
    });
  }

  cut(): void {
    this.#cut = true;
    for (const socket of this.#open) void socket.close();
    this.#open.clear();
  }

  mend(): void {
    this.#cut = false;
  }

  /** Sends every window an event as if it came from the server. */
  say(event: string, what: object): void {
    for (const socket of this.#open) socket.send(`42${JSON.stringify([event, what])}`);
  }
}
