import { randomUUID } from "node:crypto";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isPartner, PARTNER_ID } from "../../shared/protocol/rehearsal.ts";
import type { FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import type { Rehearsed } from "../../shared/protocol/rehearsedFact.ts";
import { FAULT } from "../../shared/rehearsal/faults.ts";
import { beginPlaying, factOf, type Playing, playStep } from "../../shared/rehearsal/playing.ts";
import { beginRun, throwFault } from "../../shared/rehearsal/run.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { noteRehearsal, type Person } from "../../shared/session/step.ts";
import type { Controls } from "../../shared/simulation/state.ts";
import type { Clock, Timers } from "../clock.ts";
import type { SessionLog } from "../sessions/deps.ts";
import type { Sessions } from "../sessions/sessions.ts";

/** Time between two steps of a rehearsal's world. Milliseconds. */
const STEP_MS = 250;
/** Longest time that one step makes up for, after the server was busy. Milliseconds. */
const CATCH_UP_MS = 2_000;
/** A partner takes a post that a person left after this. Milliseconds. */
const LEFT_MS = 30_000;
/** A word to a post is shown this long. Milliseconds. */
const WORD_MS = 120_000;
/** How each partner is called, in every language. */
const NAMES: Readonly<Record<Post, string>> = {
  cockpit: "Auto 1",
  fireGuard: "Auto 2",
  groundPower: "Auto 3",
  supervisor: "Auto 4",
};

/** What an instructor said to one post, and who it was. */
export interface InstructorWord {
  words: string;
  by: string;
}

export interface RunningDeps {
  sessions: Sessions;
  clock: Clock;
  timers: Timers;
  log: SessionLog;
}

/** One rehearsal that is played on this server: its simulated world, and the partners at the posts nobody took. */
export class RunningRehearsal {
  readonly id: string;
  readonly #deps: RunningDeps;
  readonly #seed: string;
  #playing: Playing;
  /** Posts that are kept for people, and when each became vacant last; null while it is held or waits for the first. */
  readonly #kept = new Map<Post, number | null>();
  #hands: Controls | null = null;
  /** The last word that the desk said to each post. */
  readonly #words = new Map<Post, InstructorWord & { at: number }>();
  #speed = 1;
  #frozen = false;
  #last: number;
  #stop: () => void = () => {};
  #over = false;

  /** @param keep the post that who began it takes; null to watch */
  constructor(deps: RunningDeps, state: SessionState, script: RehearsalScript, keep: Post | null) {
    this.#deps = deps;
    this.id = state.id;
    this.#seed = state.id.slice(-8);
    this.#playing = beginPlaying(beginRun(script, state));
    this.#last = deps.clock.now();
    if (keep !== null) this.#kept.set(keep, null);
    this.#again();
  }

  get isOver(): boolean {
    return this.#over;
  }

  /** What the desk and the panels see of it. */
  get view(): { playing: Playing; frozen: boolean; speed: number; hands: Controls | null } {
    return { playing: this.#playing, frozen: this.#frozen, speed: this.#speed, hands: this.#hands };
  }

  /** Sets what a person does in the cockpit; null leaves it to good hands. */
  work(hands: Controls | null): void {
    this.#hands = hands;
  }

  pace(frozen: boolean, speed: number): void {
    this.#frozen = frozen;
    this.#speed = speed;
  }

  /** Begins a fault now, and records it. */
  async throwNow(fault: FaultKind, engine: number): Promise<void> {
    const about = FAULT[fault].about === "aircraft" ? null : engine;
    const post =
      FAULT[fault].about === "post" ? (fault === "deadTablet" ? "groundPower" : "fireGuard") : null;
    const { run, began } = throwFault(this.#playing.run, fault, about, post);
    this.#playing = { ...this.#playing, run };
    await this.note(factOf(began));
  }

  /** Says a word to whoever holds a post, and records it. */
  async sayTo(post: Post, words: string, by: { id: string; name: string }): Promise<void> {
    await this.note({ is: "word", post, words, by });
    this.#words.set(post, { words, by: by.name, at: this.#deps.clock.now() });
  }

  /** Returns the word that stands at a post now; null when there is none. */
  wordTo(post: Post): InstructorWord | null {
    const last = this.#words.get(post);
    if (!last || this.#deps.clock.now() - last.at >= WORD_MS) return null;
    return { words: last.words, by: last.by };
  }

  /** Records what the rehearsal's server says of its world. */
  async note(said: Rehearsed): Promise<void> {
    const live = await this.#deps.sessions.get(this.id);
    const fact = { type: "rehearsed", said } as const;
    await live.run((draft) => draft.take(noteRehearsal(draft.state, fact, this.#deps.clock.now())));
  }

  stop(): void {
    this.#over = true;
    this.#stop();
  }

  #again(): void {
    if (!this.#over) this.#stop = this.#deps.timers.after(STEP_MS, () => void this.#step());
  }

  async #step(): Promise<void> {
    try {
      const { state } = await this.#deps.sessions.get(this.id);
      if (isOver(state)) return this.stop();
      const now = this.#deps.clock.now();
      const passed = Math.min(CATCH_UP_MS, Math.max(0, now - this.#last));
      this.#last = now;
      if (!this.#frozen) await this.#play(state, now, passed);
    } catch (error) {
      // Nothing real depends on it: try again with the next step.
      this.#deps.log.error({ err: error, session: this.id }, "a step of a rehearsal failed");
    }
    this.#again();
  }

  async #play(state: SessionState, now: number, passed: number): Promise<void> {
    const vacant = POSTS.find((post) => this.#takes(state, post, now));
    if (vacant) await this.#act(vacant, { type: "claimPost", post: vacant });
    const partners = POSTS.filter((post) => isPartner(state.posts[post]?.id ?? ""));
    const human = state.posts.cockpit !== null && !partners.includes("cockpit");
    const { playing, facts, act } = playStep(this.#playing, state, {
      now,
      seconds: (passed / 1000) * this.#speed,
      pace: this.#speed,
      partners,
      hands: human ? this.#hands : null,
    });
    this.#playing = playing;
    for (const said of facts) await this.note(said);
    if (act) await this.#act(act.post, act.action);
  }

  /** Whether a partner takes a post now. */
  #takes(state: SessionState, post: Post, now: number): boolean {
    const held = state.posts[post];
    if (held !== null) {
      if (!isPartner(held.id)) this.#kept.set(post, null);
      return false;
    }
    if (state.offers[post] !== null) return false;
    const since = this.#kept.get(post);
    if (since === undefined) return true;
    if (since === null) {
      this.#kept.set(post, now);
      return false;
    }
    return now - since >= LEFT_MS;
  }

  async #act(post: Post, action: Action): Promise<void> {
    const id = `${PARTNER_ID}${post}.${this.#seed}`;
    const partner: Person = { id, name: NAMES[post], device: id, mayHold: POSTS };
    const clientAt = this.#deps.clock.now();
    await this.#deps.sessions.command(partner, {
      ...{ v: 1, id: randomUUID(), session: this.id, clientAt, action },
    });
  }
}
