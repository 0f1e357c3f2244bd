import { personAt, START } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { usualOrder } from "../../shared/plan/usualOrder.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { REHEARSAL_ID, rehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import { beginPlaying, type Playing, playStep } from "../../shared/rehearsal/playing.ts";
import { beginRun } from "../../shared/rehearsal/run.ts";
import { type RehearsalScript, rehearsalScriptSchema } from "../../shared/rehearsal/script.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { act, noteRehearsal, type Person, plan, type Step, tick } from "../../shared/session/step.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

export const TYPES: readonly AircraftType[] = demo.types;

export const script = (over: Partial<RehearsalScript>): RehearsalScript =>
  rehearsalScriptSchema.parse({
    ...{ id: "test", title: { en: "Test", es: "Prueba" }, about: { en: "Test", es: "Prueba" } },
    ...{ airC: 12, faults: [], ...over },
  });

/** The action of a person at a post, in place of a partner's; null does nothing now. */
export type Instead = (state: SessionState, post: Post, action: Action, playing: Playing) => Action | null;

/** A rehearsal in memory with its own clock: what a server does, without a server. */
export class Theatre {
  now = START;
  state: SessionState;
  playing: Playing;
  readonly events: SessionEvent[] = [];
  /** The posts that partners hold; a person holds the others. */
  partners: readonly Post[] = POSTS;
  #commands = 0;
  #dueAt = 0;
  #dueOf: SessionState | null = null;

  constructor(type: AircraftType, over: RehearsalScript, seed = 1) {
    const nobody = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
    const step = plan(
      `${REHEARSAL_ID}test`,
      {
        ...{ type: "planned", aircraft: rehearsedAircraft("QX-TST", "R-TESTAA"), place: "Polgannon Field" },
        rehearsal: { seed, script: over.id, of: "QX-TST", played: over },
        ...{ aircraftType: type, order: usualOrder(type, "start"), powerSource: "groundPower", crew: nobody },
      },
      personAt("supervisor"),
      this.#mark(),
      this.now,
    );
    this.events.push(...step.events);
    this.state = step.state;
    this.playing = beginPlaying(beginRun(over, this.state));
    for (const post of POSTS) this.do(personAt(post), { type: "claimPost", post });
  }

  do(person: Person, action: Action): Step {
    return this.#take(act(this.state, action, person, this.#mark(), this.now));
  }

  /** Plays until it is over, at most so many minutes. Returns where it is stuck, if it is. */
  play(minutes = 90, instead: Instead = (_s, _p, action) => action, stepMs = 500): string | null {
    const end = this.now + minutes * 60_000;
    while (!isOver(this.state)) {
      if (this.now >= end) return `stuck in ${this.state.stage}`;
      this.now += stepMs;
      if (this.now >= this.#due()) this.#take(tick(this.state, this.now));
      const played = playStep(this.playing, this.state, {
        ...{ now: this.now, seconds: stepMs / 1000, pace: 1, partners: this.partners, hands: null },
      });
      this.playing = played.playing;
      for (const said of played.facts)
        this.#take(noteRehearsal(this.state, { type: "rehearsed", said }, this.now));
      if (!played.act) continue;
      const action = instead(this.state, played.act.post, played.act.action, this.playing);
      if (action) this.do(personAt(played.act.post), action);
    }
    return null;
  }

  kinds(): string[] {
    return this.events.flatMap(({ fact }) => (fact.type === "sent" ? [fact.kind] : []));
  }

  /** Returns the moment at which time alone changes something next: a server wakes then, and not before. */
  #due(): number {
    if (this.#dueOf !== this.state) {
      this.#dueOf = this.state;
      this.#dueAt = nextDeadline(this.state) ?? Number.POSITIVE_INFINITY;
    }
    return this.#dueAt;
  }

  #take(step: Step): Step {
    this.state = step.state;
    this.events.push(...step.events);
    return step;
  }

  #mark() {
    this.#commands += 1;
    return { id: `c-${this.#commands}`, digest: `d-${this.#commands}`, clientAt: this.now };
  }
}
