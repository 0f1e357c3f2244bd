import type { BrowserContext, Page, WebSocketRoute } from "playwright-core";

/** Returns each command's id once. A command that waits for its answer is sent again under the same id, which is no fault. */
export const commandIds = (messages: readonly string[]) => [
  ...new Set(messages.map((message) => /"id":"([^"]+)"/.exec(message)?.[1])),
];

/** The wire between one browser's windows and the server, to be cut, deafened and listened at. */
export class Wire {
  /** Nothing goes either way, and no new connection comes about. */
  #cut = false;
  /** Commands are lost on the way. */
  deaf = false;
  /** Every command a person gave that left a window, as sent. */
  readonly heard: string[] = [];
  /** Changes what a window sends; null for as it is. */
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

  /** Says something to every window as if the server had. */
  say(event: string, what: object): void {
    for (const socket of this.#open) socket.send(`42${JSON.stringify([event, what])}`);
  }
}
