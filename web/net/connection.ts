import { io, type Socket } from "socket.io-client";
import type { Confirmed } from "../../shared/asks/ask.ts";
import type { Action, Command } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import type {
  ClientToServer,
  Sent,
  ServerToClient,
  Sync,
  Trouble,
  Unrecorded,
} from "../../shared/protocol/wire.ts";
import {
  commandFor,
  enqueue,
  isFinal,
  linkUp,
  type Outbox,
  renew,
  settle,
  settleFrom,
  takeDue,
} from "../../shared/replica/outbox.ts";
import { type Applied, applyBatch, applySync, behind } from "../../shared/replica/replica.ts";
import { isStop } from "../../shared/signals/isStop.ts";
import { type ConnectionView, NOTHING } from "./connectionView.ts";
import type { OutboxBook } from "./idbOutbox.ts";
import { merged } from "./log.ts";
import { type Outgoing, outgoingOf, type SendStatus, statusOf, withOutcome } from "./outgoing.ts";
import { RETRY } from "./retry.ts";
import { ServerClock } from "./serverClock.ts";

/** All time limits and intervals of the connection, milliseconds. */
const TIMES = { tick: 250, exchange: 15_000, answer: 5_000, retry: 1_500 };

/** The socket of a panel. It connects, watches one session, sends the outbox and estimates the server's time. */
export class Connection {
  readonly clock = new ServerClock();
  #socket: Socket<ServerToClient, ClientToServer>;
  #view: ConnectionView = NOTHING;
  #outbox: Outbox;
  #book: OutboxBook;
  #outcomes: Outgoing[] = [];
  #listeners = new Set<() => void>();
  #ticker: ReturnType<typeof setInterval>;
  #exchangedAt = 0;
  #watching = false;
  /** Signals this device has reported as shown, or is reporting now; each entry is post and signal id. */
  #reported = new Set<string>();
  /** Permits that prove a PIN entry, by command id. Kept in memory only, because a permit is short-lived. */
  readonly #permits = new Map<string, string>();

  /**
   * @param handshake returns the sign-in with this device's proof; called at each opening
   * @param outbox the entries stored before this window opened
   */
  constructor(handshake: () => Promise<{ token: string; proof?: string }>, book: OutboxBook, outbox: Outbox) {
    this.#book = book;
    this.#outbox = outbox;
    this.#socket = io({
      path: "/live",
      transports: ["websocket"],
      // Without a nonce the server is unreachable: close, so that the next attempt tries again.
      auth: (say) =>
        void handshake().then(
          (auth) => say({ ...auth, proto: PROTOCOL }),
          () => this.#socket.io.engine?.close(),
        ),
      ...RETRY,
    });
    this.#show({ lasting: book.lasting() });
    this.#listen();
    this.#ticker = setInterval(() => this.#tick(), TIMES.tick);
  }

  view = (): ConnectionView => this.#view;

  subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  close(): void {
    clearInterval(this.#ticker);
    this.#socket.disconnect();
    this.#listeners.clear();
  }

  /** Watches one session, or none. */
  watch(session: string | null): void {
    if (this.#view.session === session) return;
    if (this.#view.session) this.#socket.emit("unwatch", this.#view.session);
    this.#reported.clear();
    this.#show({ session, state: null, links: null, events: [], trouble: null, unrecorded: [] });
    if (session) this.#sync(0);
  }

  /**
   * Puts an action in the outbox and sends it once it is stored. Returns the command id, or null without a session or
   * while the server's time is unknown.
   */
  act(action: Action, confirmed?: Confirmed): string | null {
    const session = this.#view.session;
    if (!session) return null;
    const id = confirmed?.command ?? crypto.randomUUID();
    const command = commandFor({ id, session, action, clientAt: Date.now() }, this.clock.now());
    if (!command) return null;
    if (confirmed) this.#permits.set(id, confirmed.permit);
    void this.#store(enqueue(this.#outbox, command, Date.now()));
    this.#pump();
    return command.id;
  }

  /**
   * Reports for the device which signals it shows. A device reports this, not a person: the report is neither stored
   * nor queued ahead of a person's messages, and is repeated until the record contains it.
   */
  reportShown(post: Post, signals: readonly number[]): void {
    const { session } = this.#view;
    const now = this.clock.now();
    const fresh = signals.filter((id) => !this.#reported.has(`${post} ${id}`));
    if (!session || now === null || fresh.length === 0 || !this.#socket.connected) return;
    const action: Action = { type: "delivered", signals: fresh };
    const command = commandFor({ id: crypto.randomUUID(), session, action, clientAt: Date.now() }, now);
    for (const id of fresh) this.#reported.add(`${post} ${id}`);
    this.#socket
      .timeout(TIMES.answer)
      .emit("command", command, (late: Error | null, result: CommandResult | Trouble) => {
        if (!late && result.status !== "error") return;
        for (const id of fresh) this.#reported.delete(`${post} ${id}`);
      });
  }

  /** Removes a notice of an unrecorded stop after the person confirmed it. */
  takeIn(notice: Unrecorded): void {
    this.#show({ unrecorded: this.#view.unrecorded.filter((u) => u !== notice) });
  }

  /** Deletes the unsent messages, because the person leaves this device. */
  forgetUnsent(): Promise<void> {
    return this.#store([]);
  }

  /** Sends a lapsed message again as a new command, on the person's request. */
  sendAnew(id: string): void {
    const old = this.#outbox.find((e) => e.command.id === id)?.command;
    if (!old) return;
    const what = { id: crypto.randomUUID(), session: old.session, action: old.action, clientAt: Date.now() };
    const fresh = commandFor(what, this.clock.now());
    if (!fresh) return;
    void this.#store(renew(this.#outbox, id, fresh, Date.now()));
    this.#pump();
  }

  drop(id: string): void {
    void this.#store(settle(this.#outbox, id));
  }

  /** Adds events fetched from before the watch began. */
  addHistory(session: string, events: readonly SessionEvent[]): void {
    if (session === this.#view.session) this.#show({ events: merged(events, this.#view.events) });
  }

  #listen(): void {
    const s = this.#socket;
    s.on("connect", () => {
      this.clock.forget();
      this.#exchangedAt = 0;
      this.#watching = false;
      this.#outbox = linkUp(this.#outbox, Date.now());
      this.#show({ phase: "live", lastHeard: Date.now(), recording: true });
      this.#sync(this.#view.state?.seq ?? 0);
      this.#tick();
    });
    s.on("disconnect", (reason) => {
      this.#show({ phase: this.#view.phase === "signedOut" ? "signedOut" : "lost" });
      // Socket.IO does not reconnect by itself after the server closed the connection.
      if (reason === "io server disconnect" && this.#view.phase !== "signedOut") this.#retry();
    });
    s.on("connect_error", (error) => {
      const code = (error as { data?: { error?: string } }).data?.error;
      if (code === "signInNeeded") this.#show({ phase: "signedOut" });
      else if (code === "protocolMismatch") this.#show({ phase: "mismatch" });
      else {
        this.#show({ phase: this.#view.phase === "connecting" ? "connecting" : "lost" });
        if (code !== undefined) this.#retry();
      }
    });
    s.on("bye", ({ why }) => {
      if (why === "signedOut") this.#show({ phase: "signedOut" });
      if (why === "protocolMismatch") this.#show({ phase: "mismatch" });
    });
    s.on("recording", ({ able }) => this.#show({ recording: able, lastHeard: Date.now() }));
    s.on("ramp", () => this.#show({ ramp: this.#view.ramp + 1, lastHeard: Date.now() }));
    s.on("beat", (beat) => {
      this.clock.hear(beat.serverNow);
      if (beat.session !== this.#view.session) return this.#show({ lastHeard: Date.now() });
      this.#show({ lastHeard: Date.now(), links: beat.links });
      const gap = behind(this.#view.state, beat.head);
      if (gap) this.#sync(gap.since);
    });
    s.on("unrecorded", (notice) => {
      if (notice.session !== this.#view.session) return;
      this.#show({ unrecorded: [...this.#view.unrecorded, notice], lastHeard: Date.now() });
    });
    s.on("events", ({ session, events }) => {
      if (session !== this.#view.session) return this.#show({ lastHeard: Date.now() });
      this.#take(applyBatch(this.#view.state, events));
    });
  }

  #retry(): void {
    setTimeout(() => {
      if (!this.#socket.connected && this.#listeners.size > 0) this.#socket.connect();
    }, TIMES.retry);
  }

  #sync(since: number): void {
    const session = this.#view.session;
    if (!session || !this.#socket.connected || this.#watching) return;
    this.#watching = true;
    this.#socket
      .timeout(TIMES.answer)
      .emit("watch", { session, since }, (late: Error | null, sync: Sync | Trouble) => {
        this.#watching = false;
        if (session !== this.#view.session) return this.#sync(0);
        if (late) return this.#sync(this.#view.state?.seq ?? 0);
        if ("status" in sync) {
          this.#show({ trouble: sync.error, lastHeard: Date.now() });
          // The server may be able to read the session in a moment, and no beat will announce it.
          if (sync.error === "notAvailable")
            setTimeout(() => this.#sync(this.#view.state?.seq ?? 0), TIMES.retry);
          return;
        }
        this.clock.hear(sync.serverNow);
        this.#take(applySync(this.#view.state, sync, since));
      });
  }

  #take({ state, fresh, gap }: Applied): void {
    const settled = settleFrom(this.#outbox, fresh);
    if (settled.length !== this.#outbox.length) this.#settleRecorded(fresh);
    const events = fresh.length > 0 ? merged(this.#view.events, fresh) : this.#view.events;
    this.#show({ state, events, lastHeard: Date.now(), trouble: null });
    if (gap) this.#sync(gap.since);
  }

  /** Settles commands whose events arrived although their answers did not: the event is the answer. */
  #settleRecorded(fresh: readonly SessionEvent[]): void {
    for (const { command } of [...this.#outbox]) {
      const event = fresh.find((e) => e.command === command.id);
      if (!event) continue;
      const refused = fresh.find((e) => e.command === command.id && e.fact.type === "refused");
      if (refused?.fact.type === "refused")
        this.#outcome(command, { is: "refused", refusal: refused.fact.refusal as never });
      else this.#outcome(command, { is: "recorded", seq: event.seq });
    }
  }

  #tick(): void {
    if (!this.#socket.connected) return;
    if (Date.now() - this.#exchangedAt >= TIMES.exchange) {
      this.#exchangedAt = Date.now();
      const t1 = Date.now();
      this.#socket
        .timeout(TIMES.answer)
        .emit("time", t1, (late: Error | null, back: { t2: number; t3: number }) => {
          if (late) return;
          this.clock.exchange(t1, back.t2, back.t3, Date.now());
          this.#show({ lastHeard: Date.now() });
          this.#pump();
        });
    }
    this.#pump();
  }

  #pump(): void {
    this.#show({});
    if (!this.#socket.connected || this.#outbox.length === 0) return;
    const { outbox, send } = takeDue(this.#outbox, Date.now(), this.clock.now());
    if (outbox.every((e, i) => e === this.#outbox[i])) return;
    const stored = this.#store(outbox);
    // A stop leaves at the touch: the page may be closed before it is stored, and a repeat of it does no harm.
    this.#emit(send.filter(({ action }) => isStop(action)));
    // Save the attempt before sending, so that a crash never hides that the server may have received it.
    const rest = send.filter(({ action }) => !isStop(action));
    void stored.then(() => this.#emit(rest));
  }

  #emit(send: readonly Command[]): void {
    for (const command of send) {
      // Otherwise Socket.IO would buffer the command and send it after an outage.
      if (!this.#socket.connected) return;
      if (!this.#outbox.some((e) => e.command.id === command.id)) continue;
      this.#socket
        .timeout(TIMES.answer)
        .emit("command", this.#permitted(command), (late: Error | null, result: CommandResult | Trouble) => {
          if (late || !this.#outbox.some((e) => e.command.id === command.id)) return;
          this.#show({ lastHeard: Date.now() });
          if (result.status !== "error") return this.#outcome(command, statusOf(result));
          if (isFinal(result.error)) this.#outcome(command, { is: "failed", error: result.error });
        });
    }
  }

  #permitted(command: Command): Sent {
    const permit = this.#permits.get(command.id);
    return permit === undefined ? command : { ...command, permit };
  }

  #outcome(command: Command, status: SendStatus): void {
    const { id, session, action, clientAt } = command;
    const done = { id, session, action, at: clientAt, status };
    this.#outcomes = withOutcome(this.#outcomes, done);
    this.#permits.delete(command.id);
    void this.#store(settle(this.#outbox, command.id));
    this.#pump();
  }

  async #store(outbox: Outbox): Promise<void> {
    this.#outbox = outbox;
    this.#show({});
    await this.#book.write(outbox);
    this.#show({ lasting: this.#book.lasting() });
  }

  #show(change: Partial<ConnectionView>): void {
    const next = { ...this.#view, ...change };
    const outgoing = outgoingOf(this.#outbox, this.#outcomes, next.session ?? "", this.clock.now());
    if (JSON.stringify(outgoing) !== JSON.stringify(next.outgoing)) next.outgoing = outgoing;
    next.unsettled = this.#outbox.find((e) => e.command.session !== next.session)?.command.session ?? null;
    const same = (Object.keys(next) as (keyof ConnectionView)[]).every((k) => next[k] === this.#view[k]);
    if (same) return;
    this.#view = next;
    for (const listener of this.#listeners) listener();
  }
}
