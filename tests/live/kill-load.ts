import { randomUUID } from "node:crypto";
import { playPost } from "../../shared/partners/play.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { Trouble } from "../../shared/protocol/wire.ts";
import type { TestPanel } from "./panel.ts";

/** The answer to a command. */
export interface Acked {
  session: string;
  seq: number;
  action: Action;
}

interface Pending {
  id: string;
  session: string;
  action: Action;
}

/**
 * One person's commands to one session, one after another. A command without an answer is sent again with the same id.
 */
export abstract class Lane {
  readonly session: string;
  readonly acked = new Map<string, Acked>();
  #pending: Pending | null = null;

  constructor(session: string) {
    this.session = session;
  }

  /** Returns the next action, or null to stop for now. Called again once the panel has heard something new. */
  protected abstract next(panel: TestPanel): Action | null;
  protected answered(_action: Action, _seq: number): void {}

  get idle(): boolean {
    return this.#pending === null;
  }

  /** Runs until the panel's connection is lost; `onAck` is called for each answer. */
  async run(panel: TestPanel, onAck: () => void): Promise<void> {
    while (panel.socket.connected) {
      if (!(await this.#once(panel))) {
        const { seq } = panel.state ?? { seq: 0 };
        await panel.until(() => !panel.socket.connected || (panel.state?.seq ?? 0) > seq);
      } else onAck();
    }
  }

  /** Sends every command again that still has no answer. */
  async flush(panel: TestPanel): Promise<void> {
    if (this.#pending) await this.#send(panel, this.#pending);
  }

  async #once(panel: TestPanel): Promise<boolean> {
    if (!this.#pending) {
      const action = this.next(panel);
      if (!action) return false;
      this.#pending = { id: randomUUID(), session: this.session, action };
    }
    return this.#send(panel, this.#pending);
  }

  async #send(panel: TestPanel, { id, session, action }: Pending): Promise<boolean> {
    let result: CommandResult | Trouble;
    try {
      result = await panel.command(session, action, { id });
    } catch {
      // The connection was lost before the answer came: only the next server can say whether it was recorded.
      return false;
    }
    if (result.status === "error") throw new Error(`${action.type}: ${result.error}, ${result.message}`);
    if (result.seq === null) throw new Error(`${action.type} was refused unrecorded`);
    this.#pending = null;
    this.acked.set(id, { session, seq: result.seq, action });
    const accepted = result.status === "accepted" || (result.status === "duplicate" && !result.refusal);
    if (accepted) this.answered(action, result.seq);
    return true;
  }
}

/** Raises a hold, releases it, and raises the next. */
export class HoldLane extends Lane {
  #open: number | null = null;

  protected override next(): Action {
    return this.#open === null
      ? { type: "send", kind: "hold", channel: "panel" }
      : { type: "send", kind: "release", ref: this.#open, channel: "panel" };
  }

  protected override answered(action: Action, seq: number): void {
    this.#open = action.type === "send" && action.kind === "hold" ? seq : null;
  }
}

/**
 * Plays one post up to the first engine's clearance and does not crank, so that the clearance is valid when the server
 * is killed.
 */
export class CrewLane extends Lane {
  readonly #post: Post;

  constructor(session: string, post: Post) {
    super(session);
    this.#post = post;
  }

  protected override next({ state }: TestPanel): Action | null {
    if (!state) return null;
    if (state.posts[this.#post] === null) return { type: "claimPost", post: this.#post };
    const move = playPost(state, this.#post, Date.now(), { seed: 1, pace: 1_000, cart: "Knocker" });
    const cranks = move?.action.type === "send" && move.action.kind === "cranking";
    return move && !cranks ? move.action : null;
  }
}
