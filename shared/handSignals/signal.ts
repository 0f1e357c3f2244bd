import type { Pose, Side } from "./pose.ts";

/** Giver of a signal: a marshaller or other ground crew, a pilot at the cockpit window, or the rescue and fire crew. */
export type Giver = "marshaller" | "pilot" | "fireCrew";

/** Certainty of the wording: read in an official copy, read in a secondary text, or from memory. */
export type Known = "read" | "secondHand" | "fromMemory";

export interface Source {
  cite: string;
  known: Known;
}

/**
 * One key pose: seconds of the movement to it, and seconds it is held. The sources give no times; these are chosen for
 * legibility.
 */
export interface Key {
  pose: Pose;
  takes: number;
  stays: number;
}

/** `held` as one posture, made `once` from beginning to end, or `again` and again until understood. */
export type Course = "held" | "once" | "again";

/** One hand signal as the figure makes it. The words are the project's own; sides are the giver's. */
export interface HandSignal {
  key: string;
  name: string;
  giver: Giver;
  /** The giver and the receiver, in words. */
  direction: string;
  meaning: string;
  movement: string;
  course: Course;
  /** The arms that carry the meaning; any other arm rests. */
  acts: readonly Side[];
  day: readonly Key[];
  /**
   * The form with bats, torches or lit wands: the same angles, angles of its own, or null where no such form is known.
   */
  wand: "same" | readonly Key[] | null;
  wandWords: string;
  /** Index of the key that shows the signal best in a still drawing. */
  still: number;
  sources: readonly Source[];
  /** The way it names an engine: by fingers, by the direction of an arm, or not at all. */
  engine: "fingers" | "points" | null;
  note: string | null;
}

/** The words of one hand signal. Each language has its own. */
export type SignalWords = Pick<
  HandSignal,
  "name" | "direction" | "meaning" | "movement" | "wandWords" | "note"
>;

export type Form = "day" | "wand";
