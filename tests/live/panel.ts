import { randomUUID } from "node:crypto";
import type { AddressInfo } from "node:net";
import { io, type Socket } from "socket.io-client";
import type { Action } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import type { Beat, ServerToClient, Sync, Trouble, Unrecorded } from "../../shared/protocol/wire.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { signIn, type TestOptions, type TestServer, testServer } from "../http/test-server.ts";

export interface LiveServer extends TestServer {
  url: string;
}

/** Opens a test server that listens on a free port of this machine. */
export async function liveServer(options: TestOptions = {}): Promise<LiveServer> {
  const server = await testServer(options);
  await server.app.listen({ port: 0, host: "127.0.0.1" });
  const { port } = server.app.server.address() as AddressInfo;
  return { ...server, url: `http://127.0.0.1:${port}` };
}

type Asked = Record<string, (...args: never[]) => void>;
type Bye = Parameters<ServerToClient["bye"]>[0];

/** A panel as the server sees it: a real socket that keeps everything it hears. */
export class TestPanel {
  readonly socket: Socket<ServerToClient, Asked>;
  readonly heard: SessionEvent[] = [];
  readonly beats: Beat[] = [];
  readonly unrecorded: Unrecorded[] = [];
  readonly byes: Bye[] = [];
  ramps = 0;
  refusal: { message: string; data?: { error: string; message: string } } | null = null;
  /** Built by the same code as the server's, only from what came over the wire. */
  state: SessionState | null = null;
  /** Events that came twice, or with others missing before them. */
  readonly faults: string[] = [];
  #gone = false;
  readonly #waiting = new Set<{ is: () => boolean; met: () => void }>();

  constructor(url: string, auth: unknown, headers: Record<string, string> = {}) {
    this.socket = io(url, {
      path: "/live",
      transports: ["websocket"],
      reconnection: false,
      forceNew: true,
      auth: auth as Record<string, unknown>,
      extraHeaders: headers,
    });
    const on = (note: () => void) => {
      note();
      for (const waiting of this.#waiting) if (waiting.is()) waiting.met();
    };
    this.socket.on("events", ({ events }) =>
      on(() => {
        this.heard.push(...events);
        for (const event of events) this.#apply(event);
      }),
    );
    this.socket.on("beat", (beat) => on(() => this.beats.push(beat)));
    this.socket.on("unrecorded", (notice) => on(() => this.unrecorded.push(notice)));
    this.socket.on("bye", (bye) => on(() => this.byes.push(bye)));
    this.socket.on("ramp", () =>
      on(() => {
        this.ramps += 1;
      }),
    );
    this.socket.on("connect", () => on(() => {}));
    this.socket.on("disconnect", () =>
      on(() => {
        this.#gone = true;
      }),
    );
    this.socket.on("connect_error", (error) =>
      on(() => {
        this.refusal = error as unknown as TestPanel["refusal"];
      }),
    );
  }

  /** Resolves as soon as `is` holds. It is tested after every message. */
  until(is: () => boolean): Promise<void> {
    if (is()) return Promise.resolve();
    return new Promise((resolve) => {
      const waiting = {
        is,
        met: () => {
          this.#waiting.delete(waiting);
          resolve();
        },
      };
      this.#waiting.add(waiting);
    });
  }

  /** Resolves once the server let the panel in, refused it, or was gone before it could do either. */
  async settled(): Promise<this> {
    await this.until(() => this.socket.connected || this.refusal !== null || this.#gone);
    return this;
  }

  cut(): Promise<void> {
    return this.until(() => !this.socket.connected);
  }

  ask<T>(event: string, value: unknown): Promise<T> {
    return this.socket.emitWithAck(event, value as never) as Promise<T>;
  }

  /** Asks to watch. The answer is applied before any later message. */
  async watch(session: string, since = 0): Promise<Sync> {
    const sync = await new Promise<Sync | Trouble>((resolve, reject) => {
      const answered = (error: Error | null, answer: Sync | Trouble) => {
        if (error) return reject(error);
        if ("state" in answer) this.state = answer.state;
        // Events of the answer may have arrived by themselves before it.
        if ("events" in answer)
          for (const event of answer.events) if (event.seq > (this.state?.seq ?? 0)) this.#apply(event);
        resolve(answer);
      };
      // With any time limit, a lost connection makes the answer an error too.
      this.socket.timeout(60_000).emit("watch", { session, since } as never, answered as never);
    });
    if ("status" in sync) throw new Error(sync.message);
    return sync;
  }

  /** Connects again after the connection was lost, and applies what was recorded meanwhile. */
  async rejoin(session: string): Promise<void> {
    this.socket.connect();
    await this.until(() => this.socket.connected);
    const sync = await this.watch(session, this.state?.seq ?? 0);
    if (!("events" in sync)) throw new Error("it missed more than the server tells at once");
    const last = this.heard.at(-1)?.seq ?? 0;
    this.heard.push(...sync.events.filter((event) => event.seq > last));
  }

  #apply(event: SessionEvent): void {
    if (!this.state) return;
    try {
      this.state = evolve(this.state, event);
    } catch (error) {
      this.faults.push((error as Error).message);
    }
  }

  /** Sends one command; `over` replaces its id or adds fields. */
  command(session: string, action: Action | { type: string }, over: Record<string, unknown> = {}) {
    const command = { v: 1, id: randomUUID(), session, clientAt: 1, action, ...over };
    return this.ask<CommandResult | Trouble>("command", command);
  }

  /** Makes one exchange with the server: everything sent before it has then arrived. */
  async exchange(): Promise<void> {
    await this.ask("time", 0);
  }

  close(): void {
    this.socket.disconnect();
  }
}

export const HOLD: Action = { type: "send", kind: "hold", channel: "panel" };

/** Signs a person in and connects a panel for that person. */
export async function panelOf(server: LiveServer, handle: string, device?: string): Promise<TestPanel> {
  const token = await signIn(server.app, handle, device);
  const panel = await new TestPanel(server.url, { token, proto: PROTOCOL }).settled();
  if (panel.refusal) throw new Error(panel.refusal.message);
  return panel;
}
