import type { Pose, Side } from "./pose.ts";

/** Giver of a signal: a marshaller or other ground crew, a pilot at the cockpit window, or the rescue and fire crew. */
export type Giver = "marshaller" | "pilot" | "fireCrew";

/** Certainty of the wording: read in an official copy, read in a secondary text, or from memory. */
export type Known = "read" | "secondHand" | "fromMemory";

export interface Source {
  cite: string;
  known: Known;
}

/** One key pose: seconds to come to it and seconds it is held. The texts give no times: these are ours to be read by. */
export interface Key {
  pose: Pose;
  takes: number;
  stays: number;
}

/** `held` as one posture, made `once` from beginning to end, or `again` and again until understood. */
export type Course = "held" | "once" | "again";

/** One hand signal as the figure makes it. Words are ours, sides the giver's own. */
export interface HandSignal {
  key: string;
  name: string;
  giver: Giver;
  /** From whom to whom, in words. */
  direction: string;
  meaning: string;
  movement: string;
  course: Course;
  /** The arms that carry the meaning; the other rests. */
  acts: readonly Side[];
  day: readonly Key[];
  /** With bats, torches or lit wands: the same angles, its own, or null where no such form is known. */
  wand: "same" | readonly Key[] | null;
  wandWords: string;
  /** The key that shows it best when it must stand still. */
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
