import { intend, playPost } from "../../shared/partners/play.ts";
import type { Script } from "../../shared/partners/script.ts";
import { usualOrder } from "../../shared/plan/usualOrder.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Fitted } from "../../shared/protocol/fitted.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Purpose } from "../../shared/protocol/stages.ts";
import type { Standing } from "../../shared/protocol/standing.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { act, type Person, plan, type Step, tick } from "../../shared/session/step.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

export const START = Date.UTC(2026, 5, 6, 8);
const LOOK_MS = 1_000;
const LONGEST_MS = 4 * 3_600_000;

export function personAt(post: Post): Person {
  return {
    id: `p-${post}`,
    name: `Partner at ${post}`,
    device: `d-${post}`,
    mayHold: POSTS,
    currentUntil: null,
  };
}

/** The parts of a plan that differ from a first start with the type's order. */
export interface Planned {
  id?: string;
  purpose?: Purpose;
  order?: number[];
  standing?: Standing;
  now?: number;
  aircraft?: string;
  place?: string;
  fitted?: Fitted[];
  planner?: Person;
}

/** A session in memory with its own clock: it does what a server does, without a server. */
export class Stage {
  now: number;
  state: SessionState;
  readonly events: SessionEvent[] = [];
  private commands = 0;

  constructor(
    type: AircraftType,
    powerSource: "groundPower" | "batteries",
    {
      id = "s-1",
      purpose = "start",
      order = usualOrder(type, purpose),
      standing,
      now = START,
      aircraft = "QX-TST",
      place = "Polgannon Field",
      fitted,
      planner = personAt("supervisor"),
    }: Planned = {},
  ) {
    this.now = now;
    const nobody = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
    const step = plan(
      id,
      {
        type: "planned",
        aircraft,
        place,
        aircraftType: type,
        order,
        powerSource,
        crew: nobody,
        defects: [],
        lastRan: [],
        ...(purpose === "return" ? { purpose } : {}),
        ...(standing ? { standing } : {}),
        ...(fitted ? { fitted } : {}),
      },
      planner,
      this.mark(),
      this.now,
    );
    this.events.push(...step.events);
    this.state = step.state;
  }

  do(person: Person, action: Action): Step {
    this.catchUp();
    return this.take(act(this.state, action, person, this.mark(), this.now));
  }

  /** Does everything that time causes up to `this.now`. */
  catchUp(): void {
    this.take(tick(this.state, this.now));
  }

  everyoneClaims(): void {
    for (const post of POSTS) this.do(personAt(post), { type: "claimPost", post });
  }

  private take(step: Step): Step {
    this.state = step.state;
    this.events.push(...step.events);
    return step;
  }

  private mark() {
    this.commands += 1;
    return { id: `c-${this.commands}`, digest: `d-${this.commands}`, clientAt: this.now };
  }
}

/** The moment to which partners play: a stage, or a state. */
export type Until = SessionState["stage"] | ((state: SessionState) => boolean);

/** Changes what a partner would do. Returns the action instead, or null to do nothing now. */
export type Instead = (state: SessionState, post: Post, action: Action) => Action | null;

/** The differences from partners who play to the end. */
export interface Playing {
  until?: Until | undefined;
  instead?: Instead | undefined;
  /** The person at each post. */
  crew?: ((post: Post) => Person) | undefined;
  /** Milliseconds between two looks of a partner to whom nothing happened. */
  lookMs?: number | undefined;
}

/**
 * Lets four partners play until the session is over or there, at most four hours. Yields after each moment, and returns
 * the place where they are stuck, if they are.
 */
export function* playing(
  stage: Stage,
  script: Script,
  { until, instead = (_state, _post, action) => action, crew = personAt, lookMs = LOOK_MS }: Playing = {},
): Generator<void, string | null> {
  const there = () => (typeof until === "function" ? until(stage.state) : stage.state.stage === until);
  const intents = new Map<Post, ReturnType<typeof intend>>();
  const end = stage.now + LONGEST_MS;
  while (!isOver(stage.state) && !there()) {
    if (stage.now >= end) return `stuck in ${stage.state.stage}`;
    let next = stage.now + lookMs;
    for (const post of POSTS) {
      const move = playPost(stage.state, post, stage.now, script);
      const intent = intend(intents.get(post) ?? null, move, stage.now);
      intents.set(post, intent);
      if (!move || !intent) continue;
      if (intent.at > stage.now) {
        next = Math.min(next, intent.at);
        continue;
      }
      intents.set(post, null);
      const action = instead(stage.state, post, move.action);
      if (action) stage.do(crew(post), action);
    }
    const deadline = nextDeadline(stage.state);
    if (deadline !== null && deadline > stage.now) next = Math.min(next, deadline);
    // A server counts whole milliseconds.
    stage.now = Math.max(Math.ceil(next), stage.now + 1);
    stage.catchUp();
    yield;
  }
  return null;
}
