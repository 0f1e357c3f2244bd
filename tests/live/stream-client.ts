import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { SessionState } from "../../shared/session/state.ts";

export interface Message {
  id: string;
  name: string;
  data: { v: number; event?: SessionEvent; session?: string; state?: SessionState };
}

/** A reader of server-sent events, written from the HTML standard alone: it keeps whole messages only. */
export class StreamClient {
  readonly messages: Message[] = [];
  /** Resolves when the stream is over. */
  readonly ended: Promise<void>;
  #text = "";
  #rest = "";
  #read = 0;
  #most = Number.POSITIVE_INFINITY;
  readonly #cut: AbortController;
  #heard: () => void = () => {};

  private constructor(body: ReadableStream<Uint8Array>, cut: AbortController) {
    this.#cut = cut;
    this.ended = this.#follow(body);
  }

  static async open(url: string, token: string, last?: string): Promise<StreamClient> {
    const cut = new AbortController();
    const headers = {
      authorization: `Bearer ${token}`,
      ...(last === undefined ? {} : { "last-event-id": last }),
    };
    const reply = await fetch(url, { headers, signal: cut.signal });
    if (!reply.ok || reply.body === null) throw new Error(`${reply.status} ${await reply.text()}`);
    return new StreamClient(reply.body, cut);
  }

  cut(): void {
    this.#cut.abort();
  }

  /** Cuts the connection once this many bytes came, or when the next turn of work brings no more. */
  async cutAfter(bytes: number): Promise<void> {
    this.#most = bytes;
    await this.until(() => this.#read >= this.#most || this.messages.length > 2);
    this.cut();
    await this.ended;
  }

  async until(is: (all: Message[]) => boolean): Promise<Message[]> {
    while (!is(this.messages))
      await new Promise<void>((resolve) => {
        this.#heard = resolve;
      });
    return this.messages;
  }

  async untilText(text: string): Promise<void> {
    await this.until(() => this.#text.includes(text));
  }

  async #follow(body: ReadableStream<Uint8Array>): Promise<void> {
    const decoder = new TextDecoder();
    try {
      for await (const chunk of body as unknown as AsyncIterable<Uint8Array>) {
        const taken = chunk.subarray(0, Math.max(0, this.#most - this.#read));
        this.#read += chunk.length;
        this.#take(decoder.decode(taken, { stream: true }));
        this.#heard();
        if (this.#read >= this.#most) break;
      }
    } catch (error) {
      if (!this.#cut.signal.aborted) throw error;
    } finally {
      this.#heard();
    }
  }

  #take(text: string): void {
    this.#text += text;
    const blocks = (this.#rest + text).split("\n\n");
    this.#rest = blocks.pop() ?? "";
    for (const block of blocks) {
      const fields = new Map(
        block
          .split("\n")
          .map((line) => [line.slice(0, line.indexOf(":")), line.slice(line.indexOf(":") + 2)]),
      );
      const [id, name, data] = ["id", "event", "data"].map((field) => fields.get(field));
      if (id !== undefined && name !== undefined && data !== undefined)
        this.messages.push({ id, name, data: JSON.parse(data) });
    }
  }
}
