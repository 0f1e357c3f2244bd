import { randomUUID } from "node:crypto";
import { io, type Socket } from "socket.io-client";
import type { Action, Command } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import type { ClientToServer, ServerToClient, Sync, Trouble } from "../../shared/protocol/wire.ts";
import {
  commandFor,
  enqueue,
  isFinal,
  linkUp,
  type Outbox,
  settle,
  settleFrom,
  takeDue,
} from "../../shared/replica/outbox.ts";
import { type Applied, applyBatch, applySync, behind } from "../../shared/replica/replica.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { History, Sent } from "./history.ts";

const ANSWER_MS = 2_000;

export interface FaultPanelOptions {
  url: string;
  token: string;
  session: string;
  client: string;
  /** Counts for all panels, so that moments can be compared. */
  moment(): number;
}

/** The product's own replica and outbox on a socket that comes and goes. Notes everything that happens to it. */
export class FaultPanel {
  state: SessionState | null = null;
  readonly faults: string[] = [];
  readonly #options: FaultPanelOptions;
  readonly #socket: Socket<ServerToClient, ClientToServer>;
  readonly #sent = new Map<string, Sent>();
  readonly #seen: SessionEvent[] = [];
  readonly #ticker: ReturnType<typeof setInterval>;
  #outbox: Outbox = [];
  #offset: number | null = null;
  #asking = false;

  constructor(options: FaultPanelOptions) {
    this.#options = options;
    const { url, token } = options;
    const auth = { token, proto: PROTOCOL };
    const often = { reconnectionDelay: 100, reconnectionDelayMax: 500, timeout: 1_500 };
    this.#socket = io(url, { path: "/live", transports: ["websocket"], forceNew: true, auth, ...often });
    this.#socket.on("connect", () => {
      this.#asking = false;
      this.#outbox = linkUp(this.#outbox, Date.now());
      this.#watch();
    });
    this.#socket.on("disconnect", (why) => {
      if (why === "io server disconnect") setTimeout(() => this.#socket.connect(), 200);
    });
    this.#socket.on("events", ({ events }) => this.#take(applyBatch(this.state, events)));
    this.#socket.on("beat", ({ head, serverNow }) => {
      this.#offset = serverNow - Date.now();
      if (behind(this.state, head)) this.#watch();
    });
    this.#ticker = setInterval(() => this.#pump(), 50);
  }

  get history(): History {
    return { client: this.#options.client, sent: [...this.#sent.values()], seen: this.#seen };
  }

  /** Returns the number of this panel's commands that wait for an answer. */
  get waiting(): number {
    return this.#outbox.length;
  }

  act(action: Action): void {
    const { session } = this.#options;
    const now = Date.now();
    const serverNow = this.#offset === null ? null : now + this.#offset;
    const command = commandFor({ id: randomUUID(), session, action, clientAt: now }, serverNow);
    if (command) this.#outbox = enqueue(this.#outbox, command, now);
    this.#pump();
  }

  close(): void {
    clearInterval(this.#ticker);
    this.#socket.disconnect();
  }

  #pump(): void {
    if (!this.#socket.connected) return;
    const serverNow = this.#offset === null ? null : Date.now() + this.#offset;
    const { outbox, send } = takeDue(this.#outbox, Date.now(), serverNow);
    // A person would drop a lapsed command.
    this.#outbox = outbox.filter((e) => !e.lapsed);
    for (const command of send) this.#emit(command);
  }

  #emit(command: Command): void {
    const { session, moment } = this.#options;
    const { id } = command;
    const sent = this.#sent.get(id) ?? {
      id,
      session,
      sentAt: moment(),
      saw: this.state?.seq ?? 0,
      answers: [],
    };
    this.#sent.set(id, sent);
    this.#socket
      .timeout(ANSWER_MS)
      .emit("command", command, (late: Error | null, result: CommandResult | Trouble) => {
        if (late) return;
        if (result.status === "error") {
          if (isFinal(result.error)) this.faults.push(`${id}: ${result.message}`);
          return;
        }
        if (result.seq !== null) sent.answers.push({ at: moment(), seq: result.seq });
        this.#outbox = settle(this.#outbox, id);
      });
  }

  #watch(): void {
    if (this.#asking || !this.#socket.connected) return;
    this.#asking = true;
    const since = this.state?.seq ?? 0;
    const { session } = this.#options;
    this.#socket
      .timeout(ANSWER_MS)
      .emit("watch", { session, since }, (late: Error | null, sync: Sync | Trouble) => {
        this.#asking = false;
        if (late || "status" in sync) return void setTimeout(() => this.#watch(), 100);
        this.#offset = sync.serverNow - Date.now();
        this.#take(applySync(this.state, sync, since));
      });
  }

  #take({ state, fresh, gap }: Applied): void {
    this.state = state;
    this.#seen.push(...fresh);
    this.#outbox = settleFrom(this.#outbox, fresh);
    if (gap) this.#watch();
  }
}
