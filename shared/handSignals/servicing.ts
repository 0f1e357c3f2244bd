import { AT_SIDE, arm, both, FIST, FLAT, key, right } from "./arms.ts";
import type { Arm, Pose } from "./pose.ts";
import type { HandSignal } from "./signal.ts";

const ANNEX = "ICAO Annex 2 App 1, 5.3";
const TO_CREW = "Ground crew to the flight crew";

const LEFT_FLAT = arm([175, 89], [20, 90], FLAT, "down", [70, 89]);
const T: Pose = { left: LEFT_FLAT, right: arm([154, 78], [91, 74], FLAT, "in", [84, -81]) };
const BELOW: Pose = { left: LEFT_FLAT, right: arm([117, 79], [118, 65], FLAT, "in", [83, -61]) };
const AWAY: Pose = { left: LEFT_FLAT, right: arm([102, 26], [113, 18], FLAT, "in", [59, -134]) };

/** A wand is longer than a hand, so the hand that holds it stays lower and the T keeps its height. */
const wandAt = (shoulder: Arm["shoulder"], elbow: Arm["elbow"], wrist: Arm["wrist"]): Pose => ({
  left: LEFT_FLAT,
  right: arm(shoulder, elbow, FIST, "in", wrist),
});
const WAND_T = wandAt([99, 91], [113, 71], [76, -34]);
const WAND_BELOW = wandAt([72, 84], [114, 74], [72, -22]);
const WAND_AWAY = wandAt([62, 19], [126, 30], [42, -89]);

export const SERVICING: readonly HandSignal[] = [
  {
    key: "connectPower",
    name: "Connect ground power",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Ground power is to be connected. The crew must answer.",
    movement:
      "Arms above the head, the left hand flat and level; the fingertips of the right hand move up until they touch its palm: a T.",
    course: "once",
    acts: ["right", "left"],
    day: [key(BELOW, 0.9, 0.6), key(T, 0.6, 1.8)],
    wand: [key(WAND_BELOW, 0.9, 0.6), key(WAND_T, 0.6, 1.8)],
    wandWords: "Lit wands may form the T above the head.",
    still: 1,
    sources: [{ cite: `${ANNEX}, connect ground power`, known: "fromMemory" }],
    engine: null,
    note: "There is no signal for “power is on”.",
  },
  {
    key: "disconnectPower",
    name: "Disconnect ground power",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Ground power is to be disconnected: not before the crew has said so.",
    movement: "Beginning with the T above the head, the right hand is drawn away.",
    course: "once",
    acts: ["right", "left"],
    day: [key(T, 0.9, 0.9), key(AWAY, 0.6, 1.8)],
    wand: [key(WAND_T, 0.9, 0.9), key(WAND_AWAY, 0.6, 1.8)],
    wandWords: "The T of lit wands, and the right one drawn away.",
    still: 1,
    sources: [{ cite: `${ANNEX}, disconnect ground power`, known: "fromMemory" }],
    engine: null,
    note: "A pilot has no standard signal for it. Flight-research crews mirror the T: left hand upright, right hand level against it, pulled away (second-hand).",
  },
  {
    key: "doNotTouchControls",
    name: "Do not touch the controls",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Somebody is near what moves: hands off the controls. The crew must answer.",
    movement: "The right arm straight up with the fist closed; the left arm at the side by the knee.",
    course: "held",
    acts: ["right"],
    day: [key(right(arm([177, 0], [0, 0], FIST)), 0.8, 3)],
    wand: [key(right(arm([177, 0], [0, 0], FIST, "in", [90, 0])), 0.8, 3)],
    wandWords: "The right wand is held level above the head.",
    still: 0,
    sources: [{ cite: `${ANNEX}, do not touch controls`, known: "fromMemory" }],
    engine: null,
    note: null,
  },
  {
    key: "negative",
    name: "Negative",
    giver: "marshaller",
    direction: "Ground crew and flight crew to each other",
    meaning: "No.",
    movement: "The right arm straight out level, the thumb down; the left hand at the side by the knee.",
    course: "held",
    acts: ["right"],
    day: [key(right(arm([90, 0], [0, 0], { is: "thumbDown" }, "giver")), 0.8, 3)],
    wand: [key(right(arm([90, 0], [0, 0], FIST, "giver", [90, 180])), 0.8, 3)],
    wandWords: "The right wand points straight down.",
    still: 0,
    sources: [{ cite: `${ANNEX}, negative`, known: "fromMemory" }],
    engine: null,
    note: null,
  },
  {
    key: "interphone",
    name: "Speak by interphone",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Let us speak by interphone.",
    movement: "Both arms out level at the sides, then the hands are brought in to cup the ears.",
    course: "once",
    acts: ["right", "left"],
    day: [
      key(both(arm([90, 0], [0, 0], FLAT, "down")), 0.8, 0.6),
      key(both(arm([100, 6], [150, 4], FLAT, "in")), 0.9, 1.8),
    ],
    wand: null,
    wandWords: "No form with wands is known to us.",
    still: 1,
    sources: [{ cite: `${ANNEX}, establish communication by interphone`, known: "fromMemory" }],
    engine: null,
    note: "There is no separate signal for ending it.",
  },
  {
    key: "stairs",
    name: "Open or close the stairs",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Open or close the forward stairs that are part of the aircraft.",
    movement:
      "The right arm at the side, the left raised 45° above level; the right then sweeps up to the top of the left shoulder.",
    course: "once",
    acts: ["right", "left"],
    day: [
      key(right(AT_SIDE, arm([135, 0], [0, 0], FLAT, "in")), 0.8, 0.6),
      key(right(arm([78, 115], [94, 57], FLAT, "down"), arm([135, 0], [0, 0], FLAT, "in")), 0.9, 1.6),
    ],
    wand: null,
    wandWords: "No form with wands is known to us.",
    still: 1,
    sources: [{ cite: `${ANNEX}, open or close stairs`, known: "fromMemory" }],
    engine: null,
    note: null,
  },
];
