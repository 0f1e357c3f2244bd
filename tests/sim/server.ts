import { createHash } from "node:crypto";
import { onceFor } from "../../shared/derived/onceFor.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { type Command, commandSchema } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { Sync } from "../../shared/protocol/wire.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { act, type Person, type Step, tick, voidPermissions } from "../../shared/session/step.ts";
import type { Move } from "../search/moves.ts";

/** A panel that lacks more events than this gets the whole state. */
const WHOLE_BEHIND = 40;

/** The simulation's interface to a server. Times are those of the simulation; the server's own clock may differ. */
export interface Server {
  readonly state: SessionState;
  command(raw: unknown, who: Person, now: number, answer: (result: CommandResult) => void): void;
  watch(since: number, now: number, answer: (sync: Sync) => void): void;
  /** Does everything that time causes up to `now`, at the moments it was due. */
  wake(now: number): void;
  /** Ends like a killed process, and starts again with what it had recorded. */
  restart(now: number): Promise<void>;
  /** Sets its clock; the server notices it or not. */
  setClock(by: number, noticed: boolean, now: number): void;
  /** Resolves once the server has no work under way. */
  settled(): Promise<void>;
  /** Returns everything it recorded. */
  log(): Promise<SessionEvent[]>;
  close(): Promise<void>;
}

/** Returns a value as it arrives over a wire. */
const overWire = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/**
 * A type as it arrives at the panels. It is most of a state and never changes, so one copy serves all of them: a panel
 * that changed it would differ from the server, with all others.
 */
const typeOverWire = onceFor((type: SessionState["type"]) => overWire(type));

/** Called with the result of one step of the core, before anybody hears of its events. */
export type Watcher = (before: SessionState, move: Move, step: Step, now: number) => void;

/** The core with a log in memory: one command at a time, each acted on once, as the protocol promises. */
export class SimServer implements Server {
  state: SessionState;
  readonly #log: SessionEvent[];
  readonly #answers = new Map<string, { digest: string; result: CommandResult }>();
  readonly #publish: (events: SessionEvent[]) => void;
  readonly #watcher: Watcher;
  #offset = 0;
  /** The state whose next deadline was worked out last, and that deadline. */
  #dueOf: { state: SessionState | null; at: number | null } = { state: null, at: null };

  constructor(
    log: readonly SessionEvent[],
    state: SessionState,
    publish: (events: SessionEvent[]) => void,
    watcher: Watcher = () => {},
  ) {
    this.#log = [...log];
    this.state = state;
    this.#publish = publish;
    this.#watcher = watcher;
  }

  #keep(move: Move, step: Step, now: number): void {
    this.#watcher(this.state, move, step, now);
    const events = step.events.map(overWire);
    this.#log.push(...events);
    this.state = step.state;
    if (events.length > 0) this.#publish(events);
  }

  command(raw: unknown, who: Person, now: number, answer: (result: CommandResult) => void): void {
    answer(this.#decide(commandSchema.parse(raw), who, now + this.#offset));
  }

  #decide(command: Command, who: Person, now: number): CommandResult {
    const { clientAt: _untrusted, ...content } = command;
    const digest = createHash("sha256").update(canonical(content)).digest("hex");
    const known = this.#answers.get(command.id);
    if (known) {
      if (known.digest !== digest) return { status: "refused", seq: null, refusal: { reason: "idReused" } };
      const { result } = known;
      if (result.status === "duplicate") return result;
      const refusal = result.status === "refused" ? { refusal: result.refusal } : {};
      return { status: "duplicate", seq: result.seq ?? 0, ...refusal };
    }
    const { id, clientAt, validUntil, action } = command;
    const until = validUntil === undefined ? {} : { validUntil };
    const step = act(this.state, action, who, { id, digest, clientAt, ...until }, now);
    const seq = step.events.find((e) => e.command === id)?.seq ?? null;
    const result: CommandResult = step.refusal
      ? { status: "refused", seq, refusal: step.refusal }
      : { status: "accepted", seq: seq ?? 0 };
    this.#answers.set(id, { digest, result });
    this.#keep({ is: "act", by: who, action, ...until }, step, now);
    return result;
  }

  watch(since: number, now: number, answer: (sync: Sync) => void): void {
    const { id: session, seq: head } = this.state;
    const serverNow = now + this.#offset;
    if (since === 0 || head - since > WHOLE_BEHIND) {
      const { type, ...rest } = this.state;
      answer({ session, head, serverNow, state: { ...overWire(rest), type: typeOverWire(type) } });
    } else answer({ session, head, serverNow, events: this.#log.slice(since) });
  }

  wake(now: number): void {
    const own = now + this.#offset;
    for (let due = this.#due(); due !== null && due <= own; due = this.#due()) {
      const at = Math.max(due, this.state.at);
      this.#keep({ is: "tick" }, tick(this.state, at), at);
    }
  }

  #due(): number | null {
    if (this.#dueOf.state !== this.state) this.#dueOf = { state: this.state, at: nextDeadline(this.state) };
    return this.#dueOf.at;
  }

  async restart(now: number): Promise<void> {
    const own = now + this.#offset;
    this.#keep({ is: "restart" }, voidPermissions(this.state, { type: "restarted" }, own), own);
  }

  setClock(by: number, noticed: boolean, now: number): void {
    this.#offset += by;
    const own = now + this.#offset;
    if (noticed)
      this.#keep({ is: "clock", by }, voidPermissions(this.state, { type: "clockStepped", by }, own), own);
  }

  async settled(): Promise<void> {}

  async log(): Promise<SessionEvent[]> {
    return this.#log;
  }

  async close(): Promise<void> {}
}
