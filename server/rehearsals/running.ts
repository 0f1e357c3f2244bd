import { randomUUID } from "node:crypto";
import { canonical } from "../../shared/evidence/canonical.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isPartner, PARTNER_ID } from "../../shared/protocol/rehearsal.ts";
import type { FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import type { Rehearsed } from "../../shared/protocol/rehearsedFact.ts";
import { type Course, STEP_MS, stepCourse, stepIsBefore, tellCourse } from "../../shared/rehearsal/course.ts";
import { FAULT } from "../../shared/rehearsal/faults.ts";
import type { Playing } from "../../shared/rehearsal/playing.ts";
import { cutOff } from "../../shared/rehearsal/run.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { noteRehearsal, type Person } from "../../shared/session/step.ts";
import type { Controls } from "../../shared/simulation/state.ts";
import type { Clock, Timers } from "../clock.ts";
import type { SessionLog } from "../sessions/deps.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { LoopShare } from "./loop-share.ts";

/** Most steps that are made up for, after the server was busy. What is beyond that, the world stood. */
const CATCH_UP = 8;
/** Steps between two looks at a frozen world. */
const FROZEN_STEPS = 4;
/** A rehearsal counts as slowed for this long after its world stood for the sake of others. Milliseconds. */
const SLOWED_MS = 10_000;
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
  share: Pick<LoopShare, "ask">;
}

type By = { id: string; name: string };

/**
 * One rehearsal that is played on this server: its simulated world, and the partners at the posts nobody took. What
 * anybody does to the world is recorded first, and comes to the world from the record.
 */
export class RunningRehearsal {
  readonly id: string;
  readonly #deps: RunningDeps;
  readonly #seed: string;
  #course: Course;
  /** Events that were recorded after the world's next step. */
  #ahead: SessionEvent[] = [];
  /** Posts that are kept for people, and when each became vacant last; null while it is held or waits for the first. */
  readonly #kept = new Map<Post, number | null>();
  /** The last word that the desk said to each post. */
  readonly #words = new Map<Post, InstructorWord & { at: number }>();
  #stop: () => void = () => {};
  #over = false;
  /** Moment at which its world last stood because others came first. */
  #slowedAt = Number.NEGATIVE_INFINITY;

  /** @param keep the posts that are kept for people */
  constructor(deps: RunningDeps, course: Course, keep: readonly Post[]) {
    this.#deps = deps;
    this.id = course.state.id;
    this.#seed = this.id.slice(-8);
    this.#course = course;
    for (const post of keep) this.#kept.set(post, null);
    this.#again();
  }

  get isOver(): boolean {
    return this.#over;
  }

  /** What the desk and the panels see of it. */
  get view(): { playing: Playing; frozen: boolean; speed: number; hands: Controls | null } {
    return this.#course;
  }

  /** Server time, milliseconds. */
  get now(): number {
    return this.#deps.clock.now();
  }

  /** Whether it runs slower than the clock, because starts come first. */
  get isSlowed(): boolean {
    return this.#deps.clock.now() - this.#slowedAt < SLOWED_MS;
  }

  /** Whether a fault has cut off the panel of whoever holds a post on this device. */
  isCutOff({ id, device }: { id: string; device: string }): boolean {
    const { state, playing } = this.#course;
    return cutOff(playing.run).some((post) => {
      const held = state.posts[post];
      return held?.id === id && held.device === device;
    });
  }

  /** Takes in what was recorded of it, in order. */
  told(events: readonly SessionEvent[]): void {
    const last = this.#ahead.at(-1)?.seq ?? this.#course.state.seq;
    this.#ahead.push(...events.filter(({ seq }) => seq > last));
    this.#takeIn();
  }

  /** Records what a person does in the cockpit from now on; null leaves it to good hands. */
  async work(controls: Controls | null): Promise<void> {
    // Panels send what they have as often as a finger moves.
    if (canonical(controls) !== canonical(this.#course.hands)) await this.note({ is: "hands", controls });
  }

  async pace(frozen: boolean, speed: number, by: By): Promise<void> {
    await this.note({ is: "pace", frozen, speed, by });
  }

  /** Records that a fault begins now. */
  async throwNow(fault: FaultKind, engine: number, post: Post | undefined, by: By): Promise<void> {
    const { about, usualPost } = FAULT[fault];
    const befalls = about === "post" ? (post ?? usualPost) : undefined;
    await this.note({
      ...{ is: "fault", fault, by },
      ...(about === "engine" || fault === "guardLost" ? { engine } : {}),
      ...(befalls ? { post: befalls } : {}),
    });
  }

  /** Says a word to whoever holds a post, and records it. */
  async sayTo(post: Post, words: string, by: By): Promise<void> {
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
    await this.#record({ type: "rehearsed", said });
  }

  /** Records that nobody holds these posts any more, and keeps them for the people who may come. */
  async vacate(posts: readonly Post[]): Promise<void> {
    for (const post of posts) {
      this.#kept.set(post, this.#deps.clock.now());
      await this.#record({ type: "postLeft", post });
    }
  }

  stop(): void {
    this.#over = true;
    this.#stop();
  }

  async #record(fact: Parameters<typeof noteRehearsal>[1]): Promise<void> {
    const live = await this.#deps.sessions.get(this.id);
    await live.run((draft) => draft.take(noteRehearsal(draft.state, fact, this.#deps.clock.now())));
  }

  #again(): void {
    if (this.#over) return;
    const ask = () => this.#deps.share.ask(() => this.#tick());
    const steps = this.#course.frozen ? FROZEN_STEPS : 1;
    if (this.#isDue(this.#deps.clock.now())) ask();
    else this.#stop = this.#deps.timers.after(steps * STEP_MS, ask);
  }

  async #tick(): Promise<void> {
    if (this.#over) return;
    try {
      const live = await this.#deps.sessions.get(this.id);
      // In its turn: whatever is recorded after this is dated at this time or later.
      const now = await live.run(() => this.#deps.clock.now());
      if (isOver(live.state)) return this.stop();
      await this.#play(live.state, now);
    } catch (error) {
      // Nothing real depends on it: try again with the next step.
      this.#deps.log.error({ err: error, session: this.id }, "a step of a rehearsal failed");
    }
    this.#again();
  }

  async #play(state: SessionState, now: number): Promise<void> {
    const vacant = this.#course.frozen ? undefined : POSTS.find((post) => this.#takes(state, post, now));
    if (vacant) await this.#act(vacant, { type: "claimPost", post: vacant });
    // One step a turn: others wait for theirs. A frozen world's steps are no work.
    for (let i = 0; i < CATCH_UP && this.#isDue(now) && (i === 0 || this.#course.frozen); i += 1) {
      const { course, facts, act } = stepCourse(this.#course);
      this.#course = course;
      for (const said of facts) await this.note(said);
      if (act) await this.#act(act.post, act.action);
    }
    if (this.#course.stands) return this.goOn();
    if (!this.#isDue(now - CATCH_UP * STEP_MS)) return;
    this.#slowedAt = now;
    await this.goOn();
  }

  /** Records that the world stood until now, and goes on. */
  async goOn(): Promise<void> {
    await this.note({ is: "stood", steps: this.#course.steps });
  }

  #isDue(now: number): boolean {
    this.#takeIn();
    return stepIsBefore(this.#course, now);
  }

  /** Tells the world what was recorded before its next step, or while it stood. */
  #takeIn(): void {
    for (;;) {
      const [next] = this.#ahead;
      const stood = this.#ahead.some(({ fact }) => fact.type === "rehearsed" && fact.said.is === "stood");
      if (!next || (!stood && stepIsBefore(this.#course, next.at))) return;
      this.#ahead.shift();
      this.#course = tellCourse(this.#course, next);
    }
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
    const { sessions, clock } = this.#deps;
    const held = (await sessions.get(this.id)).state.posts[post]?.id;
    // A rehearsal that was taken back has the partners that it had.
    const id = held !== undefined && isPartner(held) ? held : `${PARTNER_ID}${post}.${this.#seed}`;
    const partner: Person = { id, name: NAMES[post], device: id, mayHold: POSTS };
    await sessions.command(partner, {
      ...{ v: 1, id: randomUUID(), session: this.id, clientAt: clock.now(), action },
    });
  }
}
