import { AT_SIDE, arm, both, FIST, FLAT, forearmUp, key, OPEN, right } from "./arms.ts";
import type { HandSignal } from "./signal.ts";

const SI = "UK SI 2007/3468 Sch 8 r.63 Table 6";
const TO_GROUND = "Pilot to the marshaller";
const NIGHT = "No wands in the cockpit: the hands are lit as far as needed (from memory).";

/** Forearm level in front of the face. */
const LEVEL_OPEN = arm([100, 57], [117, 51], FLAT, "down", [29, 123]);
const LEVEL_FIST = { ...LEVEL_OPEN, hand: FIST };
const APART = arm([84, 33], [78, 16], OPEN, "reader", [16, -80]);
const CROSSED = {
  right: arm([94, 106], [79, 47], OPEN, "reader", [24, -55]),
  left: arm([95, 106], [66, 47], OPEN, "reader", [24, -29]),
} as const;

export const PILOT: readonly HandSignal[] = [
  {
    key: "brakesEngaged",
    name: "Brakes engaged",
    giver: "pilot",
    direction: TO_GROUND,
    meaning: "The brakes are engaged, at the moment the hand closes.",
    movement: "Arm and hand, fingers extended, level in front of the face; then the hand is clenched.",
    course: "once",
    acts: ["right"],
    day: [key(right(LEVEL_OPEN), 0.8, 1.1), key(right(LEVEL_FIST), 0.3, 1.8)],
    wand: null,
    wandWords: NIGHT,
    still: 1,
    sources: [
      { cite: `${SI} (1)`, known: "read" },
      { cite: "The moment of clenching is the moment of engaging", known: "fromMemory" },
    ],
    engine: null,
    note: "Open, then closed: engaged. The text names no hand; drawn with the right.",
  },
  {
    key: "brakesReleased",
    name: "Brakes released",
    giver: "pilot",
    direction: TO_GROUND,
    meaning: "The brakes are released, at the moment the hand opens.",
    movement: "Arm with the fist clenched, level in front of the face; then the fingers are extended.",
    course: "once",
    acts: ["right"],
    day: [key(right(LEVEL_FIST), 0.8, 1.1), key(right(LEVEL_OPEN), 0.3, 1.8)],
    wand: null,
    wandWords: NIGHT,
    still: 1,
    sources: [
      { cite: `${SI} (2)`, known: "read" },
      { cite: "The moment of opening is the moment of release", known: "fromMemory" },
    ],
    engine: null,
    note: "Closed, then open: released. The text names no hand; drawn with the right.",
  },
  {
    key: "insertChocks",
    name: "Insert chocks",
    giver: "pilot",
    direction: TO_GROUND,
    meaning: "Put the chocks in.",
    movement: "Arms extended, palms outwards; the hands are moved inwards to cross in front of the face.",
    course: "once",
    acts: ["right", "left"],
    day: [key(both(APART), 0.8, 0.7), key(CROSSED, 0.9, 1.6)],
    wand: null,
    wandWords: NIGHT,
    still: 1,
    sources: [{ cite: `${SI} (3)`, known: "read" }],
    engine: null,
    note: "Inwards: chocks in.",
  },
  {
    key: "removeChocks",
    name: "Remove chocks",
    giver: "pilot",
    direction: TO_GROUND,
    meaning: "Take the chocks away: the crew's leave for it.",
    movement: "Hands crossed in front of the face, palms outwards; the arms are moved outwards.",
    course: "once",
    acts: ["right", "left"],
    day: [key(CROSSED, 0.8, 0.7), key(both(APART), 0.9, 1.6)],
    wand: null,
    wandWords: NIGHT,
    still: 1,
    sources: [{ cite: `${SI} (4)`, known: "read" }],
    engine: null,
    note: "Outwards: chocks out.",
  },
  {
    key: "readyToStart",
    name: "Ready to start",
    giver: "pilot",
    direction: TO_GROUND,
    meaning: "I am ready to start the engine of that number.",
    movement: "As many fingers of one hand are raised as the number of the engine to be started.",
    course: "held",
    acts: ["right"],
    day: [key(right(forearmUp(58, 15, { is: "fingers", n: 1 }, "reader"), AT_SIDE), 0.8, 3)],
    wand: null,
    wandWords: NIGHT,
    still: 0,
    sources: [{ cite: `${SI} (5); ICAO Annex 2 App 1, 5.2.3`, known: "read" }],
    engine: "fingers",
    note: "For the marshaller facing the aircraft engines are numbered from his right to his left: 1 is the port outer. One hand shows 1 to 5; there is no gesture for more.",
  },
];
