import { randomUUID } from "node:crypto";
import { io, type Socket } from "socket.io-client";
import type { Action } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import type { Sync, Trouble } from "../../shared/protocol/wire.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";

/** Patience with one answer, real time. A link that breaks ends the wait at once. */
const ANSWER_MS = 30_000;

/** A command with its id, so that it can be sent again. */
export interface Sent {
  id: string;
  session: string;
  action: Action;
  validUntil?: number;
  permit?: string;
}

export function command(session: string, action: Action, over: Partial<Sent> = {}): Sent {
  return { id: randomUUID(), session, action, ...over };
}

/** One person's device on a real socket. It keeps the state of every session it watches. */
export class Client {
  readonly handle: string;
  readonly device: string;
  readonly states = new Map<string, SessionState>();
  token = "";
  #socket: Socket | null = null;

  constructor(handle: string, device: string) {
    this.handle = handle;
    this.device = device;
  }

  /** Connects and takes up every session it watched before. */
  async connect(url: string): Promise<void> {
    const socket = io(url, {
      path: "/live",
      transports: ["websocket"],
      reconnection: false,
      forceNew: true,
      auth: { token: this.token, proto: PROTOCOL },
    });
    this.#socket = socket;
    socket.on("events", ({ session, events }: { session: string; events: SessionEvent[] }) => {
      for (const event of events) this.#take(session, event);
    });
    await new Promise<void>((resolve, reject) => {
      socket.once("connect", resolve);
      socket.once("connect_error", reject);
    });
    for (const session of this.states.keys()) await this.watch(session);
  }

  /** Drops the link as a device that lost its network does. */
  drop(): void {
    this.#socket?.disconnect();
  }

  async watch(session: string): Promise<void> {
    const since = this.states.get(session)?.seq ?? 0;
    const sync = await this.#ask<Sync | Trouble>("watch", { session, since });
    if ("status" in sync) throw new Error(`${this.handle} may not watch: ${sync.message}`);
    if ("state" in sync) this.states.set(session, sync.state);
    else for (const event of sync.events) this.#take(session, event);
  }

  /** Sends a command. Resolves to its answer; null when the link broke before one came. */
  async send(sent: Sent): Promise<CommandResult | Trouble | null> {
    try {
      return await this.#ask<CommandResult | Trouble>("command", { v: 1, clientAt: 1, ...sent });
    } catch {
      return null;
    }
  }

  #ask<T>(event: string, value: unknown): Promise<T> {
    const socket = this.#socket;
    if (!socket?.connected) return Promise.reject(new Error("no link"));
    return socket.timeout(ANSWER_MS).emitWithAck(event, value) as Promise<T>;
  }

  #take(session: string, event: SessionEvent): void {
    const state = this.states.get(session);
    if (state && event.seq === state.seq + 1) this.states.set(session, evolve(state, event));
  }
}
