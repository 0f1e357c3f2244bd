import { arm, both, FIST, FLAT, forearmUp, key, OPEN, right } from "./arms.ts";
import type { HandSignal } from "./signal.ts";

const ANNEX = "ICAO Annex 2 App 1, 5.1";
const TO_CREW = "Marshaller to the flight crew";
const OPEN_UP = right(forearmUp(46, 10, OPEN, "reader"));
const FIST_UP = right(forearmUp(46, 10, FIST, "reader"));

/** Above the head, hands turned in and apart, or touching. */
const APART_IN = arm([140, 11], [46, 0], FLAT, "down", [74, 8]);
const TOUCHING = arm([161, 21], [40, 10], FLAT, "down", [64, 22]);
/** The same with wands: their tips meet. */
const WANDS_APART = arm([109, 9], [57, -7], FIST, "in", [102, 5]);
const WANDS_TOUCHING = arm([129, 10], [56, -2], FIST, "in", [83, 10]);
/** Above the head, hands turned out, near each other or apart. */
const NEAR_OUT = arm([159, 22], [49, 12], FLAT, "down", [113, -156]);
const APART_OUT = arm([125, 10], [55, -3], FLAT, "down", [84, -172]);

export const BRAKES_AND_CHOCKS: readonly HandSignal[] = [
  {
    key: "setBrakes",
    name: "Set brakes",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Set the brakes. Nobody moves until the crew has answered with a thumb up.",
    movement: "With eye contact, the open palm just above shoulder height is closed to a fist.",
    course: "once",
    acts: ["right"],
    day: [key(OPEN_UP, 0.7, 1.2), key(FIST_UP, 0.3, 1.8)],
    wand: null,
    wandWords: "The hand itself must be seen; no form with wands is known to us.",
    still: 1,
    sources: [{ cite: `${ANNEX} item 7a`, known: "secondHand" }],
    engine: null,
    note: "Open, then closed: set. The other way about is release.",
  },
  {
    key: "releaseBrakes",
    name: "Release brakes",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Release the brakes. Nobody moves until the crew has answered with a thumb up.",
    movement: "With eye contact, the fist just above shoulder height is opened.",
    course: "once",
    acts: ["right"],
    day: [key(FIST_UP, 0.7, 1.2), key(OPEN_UP, 0.3, 1.8)],
    wand: null,
    wandWords: "The hand itself must be seen; no form with wands is known to us.",
    still: 1,
    sources: [
      { cite: `${ANNEX} item 7b: fist above shoulder height`, known: "secondHand" },
      { cite: `${ANNEX} item 7b: then opened`, known: "fromMemory" },
    ],
    engine: null,
    note: "Closed, then open: release. The other way about is set.",
  },
  {
    key: "chocksInserted",
    name: "Chocks inserted",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "The chocks are in. The crew must answer.",
    movement: "Arms above the head, hands jabbed inwards until they touch.",
    course: "once",
    acts: ["right", "left"],
    day: [key(both(APART_IN), 0.8, 0.6), key(both(TOUCHING), 0.3, 1.8)],
    wand: [key(both(WANDS_APART), 0.8, 0.6), key(both(WANDS_TOUCHING), 0.3, 1.8)],
    wandWords: "The wands point in and are jabbed together.",
    still: 1,
    sources: [{ cite: `${ANNEX} item 8a, current form`, known: "fromMemory" }],
    engine: null,
    note: "Older sets make it with the arms down. See the older form.",
  },
  {
    key: "chocksRemoved",
    name: "Chocks removed",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "The chocks are out. They are not taken away before the crew has said so.",
    movement: "Arms above the head, hands pointing outwards and jabbed outwards.",
    course: "once",
    acts: ["right", "left"],
    day: [key(both(NEAR_OUT), 0.8, 0.6), key(both(APART_OUT), 0.3, 1.8)],
    wand: "same",
    wandWords: "The wands point out and are jabbed apart.",
    still: 1,
    sources: [{ cite: `${ANNEX} item 8b, current form`, known: "fromMemory" }],
    engine: null,
    note: "Older sets make it with the arms down. See the older form.",
  },
  {
    key: "chocksInsertedOlder",
    name: "Chocks inserted (older form)",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "The chocks are in. The crew must answer.",
    movement: "Arms down, palms turned in, moved inwards from the sides.",
    course: "once",
    acts: ["right", "left"],
    day: [
      key(both(arm([42, 10], [0, 0], FLAT, "in")), 0.8, 0.6),
      key(both(arm([8, 40], [6, 90], FLAT, "in")), 0.5, 1.6),
    ],
    wand: "same",
    wandWords: "The same with wands.",
    still: 1,
    sources: [{ cite: "Older marshalling sets, as printed in a training text", known: "secondHand" }],
    engine: null,
    note: "Agree at the brief which form is used.",
  },
  {
    key: "chocksRemovedOlder",
    name: "Chocks removed (older form)",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "The chocks are out.",
    movement: "Arms down, palms turned out, moved outwards to the sides.",
    course: "once",
    acts: ["right", "left"],
    day: [
      key(both(arm([8, 40], [6, 90], FLAT, "out")), 0.8, 0.6),
      key(both(arm([42, 10], [0, 0], FLAT, "out")), 0.5, 1.6),
    ],
    wand: "same",
    wandWords: "The same with wands.",
    still: 1,
    sources: [{ cite: "Older marshalling sets, as printed in a training text", known: "secondHand" }],
    engine: null,
    note: "US sets turn the thumbs outwards. Agree at the brief which form is used.",
  },
];
