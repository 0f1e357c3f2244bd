import { arm, FIST, FLAT, key, OPEN, right } from "./arms.ts";
import type { Pose } from "./pose.ts";
import type { HandSignal } from "./signal.ts";

const SOURCE = {
  cite: "FAA AIM 6-5-3, figures 6-5-1 to 6-5-3; ICAO Annex 2 App 1, 6",
  known: "read",
} as const;
const TO_CREW = "Rescue and fire crew to the flight and cabin crew";
/** Against the body. */
const HELD_IN = arm([18, 60], [100, 90], FLAT, "giver");

const CROSSED: Pose = {
  right: arm([97, 105], [78, 47], OPEN, "reader", [20, -47]),
  left: arm([97, 105], [66, 47], OPEN, "reader", [20, -47]),
};
const OUT: Pose = { right: arm([45, 0], [0, 0], OPEN, "giver"), left: arm([45, 0], [0, 0], OPEN, "giver") };
const IN: Pose = {
  right: arm([34, 141], [6, 20], OPEN, "giver"),
  left: arm([36, 138], [2, 20], OPEN, "giver"),
};
const fists = (p: Pose): Pose => ({ right: { ...p.right, hand: FIST }, left: { ...p.left, hand: FIST } });

export const EMERGENCY: readonly HandSignal[] = [
  {
    key: "recommendEvacuation",
    name: "Evacuation recommended",
    giver: "fireCrew",
    direction: TO_CREW,
    meaning: "From what is seen outside, evacuation is recommended.",
    movement:
      "One arm level, its hand raised at eye height, beckons backwards; the other arm is held against the body.",
    course: "again",
    acts: ["right"],
    day: [
      key(right(arm([84, 12], [68, 12], OPEN, "giver"), HELD_IN), 0.35, 0.1),
      key(right(arm([84, 12], [128, -14], OPEN, "giver"), HELD_IN), 0.35, 0.1),
    ],
    wand: "same",
    wandWords: "The same with a wand.",
    still: 0,
    sources: [SOURCE],
    engine: null,
    note: "The captain decides.",
  },
  {
    key: "recommendStop",
    name: "Stop recommended",
    giver: "fireCrew",
    direction: TO_CREW,
    meaning: "Stop what is being done: an evacuation, movement of the aircraft, any other activity.",
    movement: "Arms in front of the head, crossed at the wrists.",
    course: "held",
    acts: ["right", "left"],
    day: [key(CROSSED, 0.6, 3)],
    wand: [key(fists(CROSSED), 0.6, 3)],
    wandWords: "The same with wands.",
    still: 0,
    sources: [SOURCE],
    engine: null,
    note: "In front of the head; the marshaller's stop is above it.",
  },
  {
    key: "emergencyContained",
    name: "Emergency contained",
    giver: "fireCrew",
    direction: TO_CREW,
    meaning: "No sign of danger is seen outside any more.",
    movement:
      "Arms out and down 45°, swung in below the waist until they cross at the wrists, then out again: an umpire's “safe”.",
    course: "again",
    acts: ["right", "left"],
    day: [key(OUT, 0.6, 0.3), key(IN, 0.5, 0.15)],
    wand: [key(fists(OUT), 0.6, 0.3), key(fists(IN), 0.5, 0.15)],
    wandWords: "The same with wands.",
    still: 1,
    sources: [SOURCE],
    engine: null,
    note: "Begins in the posture of hold. Hold stands still; this one moves.",
  },
];
