import { once } from "node:events";
import { type AddressInfo, connect, createServer, type Server, type Socket } from "node:net";
import type { Chance } from "../sim/chance.ts";

/** The state of a link at this moment. */
export interface Conditions {
  /** Each piece of a stream waits between these milliseconds and never overtakes another. */
  delayMs: readonly [number, number];
  /** The chance that a piece is lost and arrives only after `stallMs`, as TCP repeats it. */
  loss: number;
  stallMs: number;
}

export const CLEAR: Conditions = { delayMs: [0, 0], loss: 0, stallMs: 0 };

interface Link {
  near: Socket;
  far: Socket;
  /** Nothing passes any more, and the near side is not told. */
  halfOpen: boolean;
}

/** Stands between a panel and the server and disturbs their TCP connections at random from a seed. */
export class FaultProxy {
  readonly #server: Server;
  readonly #chance: Chance;
  readonly #links = new Set<Link>();
  readonly #waiting = new Set<() => void>();
  #dark = false;
  #refusing = false;
  conditions: Conditions = CLEAR;
  /** The port of the server, which may return on another one. */
  upstream: number;
  readonly counts = { links: 0, stalls: 0, resets: 0, halfOpens: 0, blackouts: 0 };

  private constructor(server: Server, upstream: number, chance: Chance) {
    this.#server = server;
    this.upstream = upstream;
    this.#chance = chance;
    server.on("connection", (near) => {
      if (this.#refusing) near.resetAndDestroy();
      else this.#join(near);
    });
  }

  static async to(upstream: number, chance: Chance): Promise<FaultProxy> {
    const server = createServer().listen(0, "127.0.0.1");
    await once(server, "listening");
    return new FaultProxy(server, upstream, chance);
  }

  get url(): string {
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`;
  }

  /** Nothing passes in either direction; what was sent meanwhile arrives afterwards. */
  blackout(on: boolean): void {
    this.#dark = on;
    if (on) this.counts.blackouts += 1;
    else for (const go of [...this.#waiting]) go();
  }

  /** Cuts every link and accepts no new one, as if nothing listened. */
  refuse(on: boolean): void {
    this.#refusing = on;
    if (on) this.reset();
  }

  /** Cuts every link with a reset at both ends. */
  reset(): void {
    for (const { near, far } of this.#links) {
      this.counts.resets += 1;
      near.resetAndDestroy();
      far.resetAndDestroy();
    }
  }

  /** Cuts the server's end of every link; the panel's end stays open as if the server were there. */
  halfOpen(): void {
    for (const link of this.#links) {
      this.counts.halfOpens += 1;
      link.halfOpen = true;
      link.far.destroy();
    }
  }

  async close(): Promise<void> {
    for (const { near, far } of this.#links) for (const socket of [near, far]) socket.destroy();
    this.#server.close();
    await once(this.#server, "close");
  }

  #join(near: Socket): void {
    const link: Link = { near, far: connect(this.upstream, "127.0.0.1"), halfOpen: false };
    this.#links.add(link);
    this.counts.links += 1;
    const { far } = link;
    near.on("error", () => {}).on("close", () => this.#end(link));
    far
      .on("error", () => {})
      .on("close", () => {
        if (!link.halfOpen) this.#end(link);
      });
    this.#pipe(link, near, far);
    this.#pipe(link, far, near);
  }

  #end(link: Link): void {
    this.#links.delete(link);
    link.near.destroy();
    link.far.destroy();
  }

  #pipe(link: Link, from: Socket, to: Socket): void {
    let before: Promise<void> = Promise.resolve();
    from.on("data", (chunk) => {
      const due = performance.now() + this.#wait();
      before = before.then(async () => {
        const ms = due - performance.now();
        if (ms > 0) await new Promise((resolve) => setTimeout(resolve, ms));
        await this.#light();
        if (!link.halfOpen && to.writable) to.write(chunk);
      });
    });
  }

  #wait(): number {
    const { delayMs, loss, stallMs } = this.conditions;
    const lost = this.#chance.is(loss);
    if (lost) this.counts.stalls += 1;
    return delayMs[0] + this.#chance.next() * (delayMs[1] - delayMs[0]) + (lost ? stallMs : 0);
  }

  async #light(): Promise<void> {
    if (!this.#dark) return;
    await new Promise<void>((resolve) => {
      const go = () => {
        this.#waiting.delete(go);
        resolve();
      };
      this.#waiting.add(go);
    });
  }
}
