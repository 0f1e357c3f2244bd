import { createHash } from "node:crypto";
import { canonical } from "../../shared/evidence/canonical.ts";
import { type Command, commandSchema } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusals.ts";
import type { Sync } from "../../shared/protocol/wire.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { act, type Person, type Step, tick, unsettle } from "../../shared/session/step.ts";

/** Behind by more than this many events a panel is sent the whole state. */
const WHOLE_BEHIND = 40;

/** The core behind a log in memory: one command at a time, each acted on once, as the protocol promises. */
export class SimServer {
  state: SessionState;
  readonly log: SessionEvent[];
  readonly #answers = new Map<string, { digest: string; result: CommandResult }>();
  readonly #publish: (events: SessionEvent[]) => void;

  constructor(log: readonly SessionEvent[], state: SessionState, publish: (events: SessionEvent[]) => void) {
    this.log = [...log];
    this.state = state;
    this.#publish = publish;
  }

  #keep(step: Step): void {
    // What goes out went through JSON, as on a wire.
    const events = step.events.map((e) => JSON.parse(canonical(e)) as SessionEvent);
    this.log.push(...events);
    this.state = step.state;
    if (events.length > 0) this.#publish(events);
  }

  command(raw: unknown, who: Person, now: number): CommandResult {
    const command: Command = commandSchema.parse(raw);
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
    const { id, clientAt, validUntil } = command;
    const mark = { id, digest, clientAt, ...(validUntil === undefined ? {} : { validUntil }) };
    const step = act(this.state, command.action, who, mark, now);
    const seq = step.events.find((e) => e.command === id)?.seq ?? null;
    const result: CommandResult = step.refusal
      ? { status: "refused", seq, refusal: step.refusal }
      : { status: "accepted", seq: seq ?? 0 };
    this.#answers.set(id, { digest, result });
    this.#keep(step);
    return result;
  }

  watch(since: number, now: number): Sync {
    const { id: session, seq: head } = this.state;
    if (since === 0 || head - since > WHOLE_BEHIND) {
      return { session, head, serverNow: now, state: JSON.parse(canonical(this.state)) as SessionState };
    }
    return { session, head, serverNow: now, events: this.log.slice(since) };
  }

  /** Everything that time brought up to `now`, at the moments it was due. */
  wake(now: number): void {
    for (let due = nextDeadline(this.state); due !== null && due <= now; due = nextDeadline(this.state)) {
      this.#keep(tick(this.state, Math.max(due, this.state.at)));
    }
  }

  restart(now: number): void {
    this.#keep(unsettle(this.state, { type: "restarted" }, now));
  }
}
