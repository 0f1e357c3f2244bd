import type { SessionEvent } from "../protocol/events.ts";
import { POSTS } from "../protocol/posts.ts";
import { isPartner } from "../protocol/rehearsal.ts";
import type { Rehearsed } from "../protocol/rehearsedFact.ts";
import { evolve } from "../session/evolve.ts";
import { isOver, type SessionState } from "../session/state.ts";
import type { Controls } from "../simulation/state.ts";
import { beginPlaying, type Played, type Playing, playStep } from "./playing.ts";
import { beginRun, throwFault } from "./run.ts";
import type { RehearsalScript } from "./script.ts";

/** Server time between two steps of a rehearsal's world. Milliseconds. */
export const STEP_MS = 250;

/**
 * A rehearsal as its record tells it: the session, and the simulated world beside it. The world takes one step after
 * another; each sees the events recorded up to its time, and nothing else from outside. So the record gives the same
 * world again.
 */
export interface Course {
  state: SessionState;
  playing: Playing;
  /** The controls as a person sets them; null leaves them to good hands. */
  hands: Controls | null;
  frozen: boolean;
  speed: number;
  /** Server time of the last step, and how many there were. */
  at: number;
  steps: number;
  /** The server was started again: the world stands until the server says that it goes on. */
  stands: boolean;
}

/** Returns a rehearsal as it begins, from its first event. */
export function beginCourse(script: RehearsalScript, first: SessionEvent): Course {
  const state = evolve(null, first);
  const playing = beginPlaying(beginRun(script, state));
  return { state, playing, hands: null, frozen: false, speed: 1, at: first.at, steps: 0, stands: false };
}

/** Returns the rehearsal after its next recorded event. */
export function tellCourse(before: Course, event: SessionEvent): Course {
  const course = { ...before, state: evolve(before.state, event) };
  const { fact } = event;
  if (fact.type === "restarted") return { ...course, stands: true };
  if (fact.type === "postTaken" && fact.post === "cockpit") return { ...course, hands: null };
  return fact.type === "rehearsed" ? heard(course, fact.said, event.at) : course;
}

function heard(course: Course, said: Rehearsed, at: number): Course {
  switch (said.is) {
    case "hands":
      return { ...course, hands: said.controls };
    case "pace":
      return { ...course, frozen: said.frozen, speed: said.speed };
    case "fault": {
      // Faults of the script come of the steps themselves.
      if (!said.by) return course;
      const { run } = throwFault(course.playing.run, said.fault, said.engine ?? null, said.post ?? null);
      return { ...course, playing: { ...course.playing, run } };
    }
    case "stood":
      return { ...course, at, stands: false };
    case "mark":
    case "word":
    case "suffered":
    case "takenBack":
    case "goesOn":
      return course;
  }
}

/** Returns true when the next step comes before `time`. */
export const stepIsBefore = (course: Course, time: number): boolean =>
  !course.stands && !isOver(course.state) && course.at + STEP_MS < time;

/** Returns the rehearsal one step later, what is to be recorded of it, and what a partner does now. */
export function stepCourse(course: Course): Omit<Played, "playing"> & { course: Course } {
  const { state, frozen, speed } = course;
  const at = course.at + STEP_MS;
  const next = { ...course, at, steps: course.steps + 1 };
  if (frozen) return { course: next, facts: [], act: null };
  const partners = POSTS.filter((post) => isPartner(state.posts[post]?.id ?? ""));
  const human = state.posts.cockpit !== null && !partners.includes("cockpit");
  const { playing, facts, act } = playStep(course.playing, state, {
    ...{ now: at, seconds: (STEP_MS / 1000) * speed, pace: speed, partners },
    hands: human ? course.hands : null,
  });
  return { course: { ...next, playing }, facts, act };
}
