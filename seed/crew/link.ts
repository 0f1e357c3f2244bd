import { randomUUID } from "node:crypto";
import { io, type Socket } from "socket.io-client";
import type { Action } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import type { ClientToServer, ServerToClient, Trouble, WireError } from "../../shared/protocol/wire.ts";
import { commandFor } from "../../shared/replica/outbox.ts";
import { type Applied, applyBatch, applySync, behind } from "../../shared/replica/replica.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { CrewClock } from "./clock.ts";

/**
 * Longest wait for an answer. After it the state is fetched again, which shows the effect of the command.
 * Milliseconds.
 */
const ANSWER_MS = 5_000;

/** Wait before a reconnect, when the server ended the link at its shutdown or asked to wait. Milliseconds. */
const COME_BACK_MS = 1_000;

/** Errors that waiting does not cure. */
const FINAL: readonly WireError[] = [
  "malformed",
  "tooLarge",
  "protocolMismatch",
  "signInNeeded",
  "noSuchSession",
];

export interface LinkOptions {
  url: string;
  token: string;
  session: string;
  clock: CrewClock;
  /** Called with the new events on every change of the state, and with none when the link came or went. */
  onChange(fresh: SessionEvent[]): void;
  /** Called when the server refuses this link for good. */
  onEnd(why: string): void;
}

/** One person's socket on one session. Keeps a copy of the state and sends actions one by one. */
export class CrewLink {
  state: SessionState | null = null;
  readonly #options: LinkOptions;
  readonly #socket: Socket<ServerToClient, ClientToServer>;
  #offset: number | null = null;
  #inStep = false;
  #ended = false;

  constructor(options: LinkOptions) {
    this.#options = options;
    const { url, token, session, clock } = options;
    const socket: Socket<ServerToClient, ClientToServer> = io(url, {
      path: "/live",
      transports: ["websocket"],
      auth: { token, proto: PROTOCOL },
      forceNew: true,
    });
    this.#socket = socket;
    socket.on("connect", () => void this.#watch());
    socket.on("disconnect", () => {
      this.#inStep = false;
      this.#options.onChange([]);
      // A socket that the server ended does not reconnect by itself.
      if (!socket.active && !this.#ended) clock.after(COME_BACK_MS, () => this.#ended || socket.connect());
    });
    socket.on("connect_error", (error) => {
      // An active socket reconnects by itself. One that the server refused does not.
      if (socket.active) return;
      const said = (error as { data?: { error?: WireError } }).data?.error;
      if (said !== "notAvailable") this.#end(error.message);
      else clock.after(COME_BACK_MS, () => this.#ended || socket.connect());
    });
    socket.on("events", (batch) => {
      if (batch.session === session) this.#take(applyBatch(this.state, batch.events));
    });
    socket.on("beat", (beat) => {
      if (beat.session !== session) return;
      this.#setTime(beat.serverNow);
      if (behind(this.state, beat.head)) void this.#watch();
    });
    socket.on("bye", ({ why }) => {
      if (why !== "restarting") this.#end(why);
    });
  }

  /** True while connected, with no event known to be missing. */
  get inStep(): boolean {
    return this.#inStep && this.state !== null && this.#offset !== null;
  }

  /** Returns the server's time in milliseconds, late by the latency of the last message. */
  serverNow(): number {
    return this.#options.clock.now() + (this.#offset ?? 0);
  }

  /** Sends an action. Returns the server's answer; null when none came, in which case the state is fetched again. */
  async send(action: Action): Promise<CommandResult | null> {
    const { session, clock } = this.#options;
    const command = commandFor(
      { id: randomUUID(), session, action, clientAt: clock.now() },
      this.serverNow(),
    );
    try {
      const answer = await this.#socket.timeout(ANSWER_MS).emitWithAck("command", command);
      if (answer.status !== "error") return answer;
      this.#wait(answer);
    } catch {
      // No answer in time, or the connection was lost.
      await this.#watch();
    }
    return null;
  }

  close(): void {
    this.#ended = true;
    this.#socket.removeAllListeners();
    this.#socket.disconnect();
  }

  async #watch(): Promise<void> {
    if (this.#ended) return;
    const since = this.state?.seq ?? 0;
    this.#inStep = false;
    try {
      const { session } = this.#options;
      const answer = await this.#socket.timeout(ANSWER_MS).emitWithAck("watch", { session, since });
      if ("status" in answer) return this.#wait(answer);
      this.#setTime(answer.serverNow);
      this.#inStep = true;
      this.#take(applySync(this.state, answer, since));
    } catch {
      // The next connection or beat watches again.
    }
  }

  #take(applied: Applied): void {
    this.state = applied.state;
    if (applied.gap) {
      if (applied.gap.since === 0) this.state = null;
      void this.#watch();
    }
    this.#options.onChange(applied.fresh);
  }

  #setTime(serverNow: number): void {
    this.#offset = serverNow - this.#options.clock.now();
  }

  /** Waits before the next attempt, unless the error is final. */
  #wait({ error, message }: Trouble): void {
    this.#inStep = false;
    if (FINAL.includes(error)) this.#end(message);
    else this.#options.clock.after(COME_BACK_MS, () => void this.#watch());
  }

  #end(why: string): void {
    if (this.#ended) return;
    this.#ended = true;
    this.#options.onEnd(why);
  }
}
