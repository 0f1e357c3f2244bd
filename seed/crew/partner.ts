import { between } from "../../shared/partners/chance.ts";
import { type Intent, intend, type Move, playPost } from "../../shared/partners/play.ts";
import type { Script } from "../../shared/partners/script.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Refusal } from "../../shared/protocol/refusal.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import type { SignedIn } from "./api.ts";
import type { CrewClock } from "./clock.ts";
import type { CrewLink } from "./link.ts";

/** Seconds for which a free post is left to a person: at first, and after somebody left it. */
const GRACE = { first: [2, 4], later: [20, 30] } as const;

/** Seconds to the next check when nothing happens, and after a refusal. */
const LOOK = 1;
const AFTER_REFUSAL = 4;

/** Refusals of a post that another person may take. */
const UNFIT: readonly Refusal["reason"][] = ["alreadyHoldsPost", "notQualified", "postElsewhere"];

export interface PartnerOptions {
  post: Post;
  me: SignedIn;
  script: Script;
  clock: CrewClock;
  onRefused(post: Post, action: Action, refusal: Refusal): void;
  /** Called when this person cannot hold the post, so that another can try. */
  onUnfit(post: Post, refusal: Refusal): void;
}

/**
 * A scripted partner at one post. Takes the post while it is free, plays it, and leaves it alone while a person holds
 * it.
 */
export class Partner {
  readonly #options: PartnerOptions;
  readonly #link: () => CrewLink | null;
  #intent: Intent | null = null;
  #sending = false;
  /** The state must reach this event before the next move: the answer arrives before the event. */
  #until = 0;
  #notBefore = 0;
  /** Time for which the post is left free this time, milliseconds at human pace. */
  #graceMs = 0;
  #seen: "free" | "mine" | "others" | null = null;
  #cancel: (() => void) | null = null;
  #stopped = false;

  constructor(options: PartnerOptions, link: () => CrewLink | null) {
    this.#options = options;
    this.#link = link;
  }

  stop(): void {
    this.#stopped = true;
    this.#cancel?.();
  }

  /** Checks the state and acts. Called on every change, and by a timer in between. */
  look(): void {
    this.#cancel?.();
    this.#cancel = null;
    const link = this.#link();
    const state = link?.state ?? null;
    if (this.#stopped || this.#sending || (state && isOver(state))) return;
    const { clock, script } = this.#options;
    let wake = (LOOK * 1000) / script.pace;
    if (link?.inStep && state && state.seq >= this.#until) {
      const now = link.serverNow();
      const move = this.#move(state, now);
      this.#intent = intend(this.#intent, move, now);
      const at = Math.max(this.#intent?.at ?? Number.POSITIVE_INFINITY, this.#notBefore);
      if (move && at <= now) {
        void this.#send(link, move.action);
        return;
      }
      wake = Math.min(wake, at - now);
    }
    this.#cancel = clock.after(Math.ceil(wake), () => this.look());
  }

  #move(state: SessionState, now: number): Move | null {
    const { post, me, script } = this.#options;
    const holder = state.posts[post];
    const mine = holder?.id === me.person.id && holder.device === me.device;
    const before = this.#seen;
    this.#seen = mine ? "mine" : holder ? "others" : "free";
    if (mine) return playPost(state, post, now, script);
    if (holder) return null;
    const [from, to] = before === "mine" || before === "others" ? GRACE.later : GRACE.first;
    if (before !== "free") this.#graceMs = between(from, to, script.seed, post, state.seq) * 1000;
    return {
      key: `claim ${post}`,
      action: { type: "claimPost", post },
      pauseMs: this.#graceMs / script.pace,
      notBefore: 0,
    };
  }

  async #send(link: CrewLink, action: Action): Promise<void> {
    const { post, clock, script, onRefused, onUnfit } = this.#options;
    this.#sending = true;
    this.#intent = null;
    const result = await link.send(action);
    this.#sending = false;
    if (result && "refusal" in result && result.refusal) {
      this.#notBefore = link.serverNow() + (AFTER_REFUSAL * 1000) / script.pace;
      const { reason } = result.refusal;
      if (action.type === "claimPost" && UNFIT.includes(reason)) {
        onUnfit(post, result.refusal);
      } else onRefused(post, action, result.refusal);
    }
    this.#until = Math.max(this.#until, result?.seq ?? 0);
    if (!this.#stopped) this.#cancel = clock.after(0, () => this.look());
  }
}
