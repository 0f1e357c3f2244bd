import type { Command } from "../../shared/protocol/commands.ts";
import { actionSchema } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { Sync } from "../../shared/protocol/wire.ts";
import {
  commandFor,
  enqueue,
  linkUp,
  type Outbox,
  settle,
  settleFrom,
  takeDue,
} from "../../shared/replica/outbox.ts";
import { type Applied, applyBatch, applySync, behind, type Gap } from "../../shared/replica/replica.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Person, Say } from "../spec/given.ts";

/** A panel that got no answer to its request for missing events asks again after this, milliseconds. */
const ASK_AGAIN_MS = 1_500;

/** The messages from a panel to the server. */
export interface Uplink {
  command(command: Command): void;
  watch(since: number): void;
}

/** One person's panel: the product's own outbox and replica, with a clock that may be wrong. */
export class SimPanel {
  readonly who: Person;
  /** Panel clock minus server clock, milliseconds, after the panel's own estimate is subtracted. */
  readonly skew: number;
  state: SessionState | null = null;
  outbox: Outbox = [];
  linked = false;
  /** Ids of this panel's commands that were answered as accepted, and as refused. */
  readonly accepted = new Set<string>();
  #asked: { since: number; at: number } | null = null;
  #up: Uplink | null = null;

  constructor(who: Person, skew: number) {
    this.who = who;
    this.skew = skew;
  }

  link(up: Uplink, now: number): void {
    this.#up = up;
    this.linked = true;
    this.outbox = linkUp(this.outbox, now);
    this.#ask({ since: this.state?.seq ?? 0 }, now);
  }

  unlink(): void {
    this.linked = false;
    this.#up = null;
    this.#asked = null;
  }

  say(id: string, action: Say, now: number): void {
    const parsed = actionSchema.parse(action);
    const session = this.state?.id;
    if (session === undefined) return;
    const command = commandFor({ id, session, action: parsed, clientAt: Math.max(0, now + this.skew) }, now);
    if (command) this.outbox = enqueue(this.outbox, command, now);
  }

  /** Sends what is due, and asks again for missing events. Drops lapsed commands, as a person might. */
  run(now: number): void {
    if (!this.#up) return;
    const due = takeDue(this.outbox, now, now);
    this.outbox = due.outbox.filter((e) => !e.lapsed);
    for (const command of due.send) this.#up.command(command);
    if (this.#asked && now - this.#asked.at >= ASK_AGAIN_MS) this.#ask({ since: this.#asked.since }, now);
  }

  answered(id: string, result: CommandResult): void {
    this.outbox = settle(this.outbox, id);
    if (result.status === "accepted" || (result.status === "duplicate" && !result.refusal))
      this.accepted.add(id);
  }

  events(batch: SessionEvent[], now: number): void {
    // A panel that never held the session waits for the answer to its watch.
    if (this.state === null) return;
    this.#take(applyBatch(this.state, batch), now);
  }

  synced(sync: Sync, since: number, now: number): void {
    if (this.#asked?.since === since) this.#asked = null;
    this.#take(applySync(this.state, sync, since), now);
  }

  beat(head: number, now: number): void {
    const gap = behind(this.state, head);
    if (gap) this.#ask(gap, now);
  }

  #take(applied: Applied, now: number): void {
    this.state = applied.state;
    this.outbox = settleFrom(this.outbox, applied.fresh);
    if (applied.gap) this.#ask(applied.gap, now);
  }

  #ask(gap: Gap, now: number): void {
    if (this.#asked && this.#asked.since === gap.since && now - this.#asked.at < ASK_AGAIN_MS) return;
    this.#asked = { since: gap.since, at: now };
    this.#up?.watch(gap.since);
  }
}
