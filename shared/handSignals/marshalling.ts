import { arm, both, FIST, FLAT, forearmUp, key, OPEN, POINT, right } from "./arms.ts";
import type { Arm, Pose } from "./pose.ts";
import type { HandSignal } from "./signal.ts";

const TO_CREW = "Marshaller to the flight crew";
const ANNEX = "ICAO Annex 2 App 1, 5.1";

const LEVEL = arm([90, 0], [0, 0], OPEN, "reader");
const CROSSED: Pose = {
  right: arm([206, 0], [0, 0], OPEN, "reader"),
  left: arm([204, 8], [0, 0], OPEN, "reader"),
};
/** Half of the slow rise. The still shows it, because the end is that of the emergency stop. */
const RISING: Pose = {
  right: arm([148, 0], [0, 0], OPEN, "reader"),
  left: arm([147, 4], [0, 0], OPEN, "reader"),
};
const WANDS_RISING: Pose = { right: arm([144, 0], [0, 0], FIST), left: arm([143, 4], [0, 0], FIST) };
const WANDS_CROSSED: Pose = { right: arm([197, 0], [0, 0], FIST), left: arm([195, 8], [0, 0], FIST) };
const DOWN_45 = arm([45, 0], [0, 0], OPEN, "giver");

/** The raised forearm swings about the upright: four places of one circle. */
const circling = ([bend, towards]: readonly [number, number]): Arm =>
  arm([72, 15], [bend, towards], POINT, "in");
/** Above the head and out to the giver's left, where an engine on the aircraft's starboard side stands. */
const POINTS_UP_LEFT = arm([148, 30], [0, 0], POINT, "in");
const CIRCLE = (
  [
    [80, 0],
    [108, 26],
    [136, 0],
    [108, -26],
  ] as const
).map((elbow, i) => key(right(circling(elbow), POINTS_UP_LEFT), i === 0 ? 0.8 : 0.25));

const SALUTE = right(arm([112, 38], [132, 38], FLAT, "down", [12, -142]));
const FAN: readonly [Pose, Pose] = [
  right(arm([88, 40], [18, 0], FLAT, "in"), arm([90, 12], [0, 0], POINT)),
  right(arm([14, 40], [4, 90], FLAT, "in"), arm([90, 12], [0, 0], POINT)),
];

export const MARSHALLING: readonly HandSignal[] = [
  {
    key: "startEngine",
    name: "Start engine",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "You may start the engine I point at. Given only after that engine was seen to be clear.",
    movement:
      "The giver's right hand circles at head height; the left arm is raised above the head and points at the engine.",
    course: "again",
    acts: ["right", "left"],
    day: CIRCLE,
    wand: "same",
    wandWords: "The same: the right wand circles at head height, the left one is raised and points.",
    still: 3,
    sources: [
      { cite: `${ANNEX} item 9`, known: "secondHand" },
      {
        cite: "US Navy training text P-1212 app. B, night: one wand overhead, one circling at head level",
        known: "read",
      },
    ],
    engine: "points",
    note: "It is always the left arm that points, whichever side the engine is on: for an engine on the port side it leans across. Read where it points, never which arm it is.",
  },
  {
    key: "cutEngines",
    name: "Cut engines",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Stop the engines. It names none of them: without a pointed engine it means all.",
    movement:
      "One arm forward at shoulder height, the hand to the opposite shoulder, then drawn across the throat to its own shoulder. Drawn here with the giver's right arm.",
    course: "once",
    acts: ["right"],
    day: [
      key(right(arm([86, 88], [6, 0], FLAT, "down")), 0.6, 0.4),
      key(right(arm([92, 103], [106, 82], FLAT, "down")), 0.5, 0.2),
      key(right(arm([96, 69], [132, 83], FLAT, "down")), 0.35, 0),
      key(right(arm([88, 6], [143, 74], FLAT, "down")), 0.35, 1),
    ],
    wand: "same",
    wandWords: "The same with a wand.",
    still: 2,
    sources: [{ cite: `${ANNEX} item 10`, known: "secondHand" }],
    engine: null,
    note: "An older form begins with the arm bent level with the shoulder.",
  },
  {
    key: "cutOneEngineNight",
    name: "Cut that engine (Navy, night)",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Stop the engine the other wand points at.",
    movement: "One wand slashes across the throat while the other points at the engine.",
    course: "again",
    acts: ["right", "left"],
    day: [
      key(right(arm([92, 103], [106, 82], FLAT, "down"), arm([90, 12], [0, 0], POINT)), 0.6, 0.2),
      key(right(arm([96, 69], [132, 83], FLAT, "down"), arm([90, 12], [0, 0], POINT)), 0.3, 0),
      key(right(arm([88, 6], [143, 74], FLAT, "down"), arm([90, 12], [0, 0], POINT)), 0.3, 0.3),
    ],
    wand: "same",
    wandWords: "It is a night signal: made with wands.",
    still: 1,
    sources: [{ cite: "US Navy training text P-1212 app. B", known: "read" }],
    engine: "points",
    note: "Not a signal of the international set.",
  },
  {
    key: "slowEngines",
    name: "Slow the engines on one side",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Reduce power on the engines on the side of the hand that moves.",
    movement:
      "Arms down, palms to the ground; one hand is waved up and down. Drawn here with the giver's right hand: the aircraft's port side.",
    course: "again",
    acts: ["right"],
    day: [
      key(
        right(arm([28, 15], [20, 0], FLAT, "down", [38, 0]), arm([28, 15], [20, 0], FLAT, "down", [38, 0])),
        0.5,
        0.1,
      ),
      key(
        right(arm([52, 15], [24, 0], FLAT, "down", [12, 0]), arm([28, 15], [20, 0], FLAT, "down", [38, 0])),
        0.5,
        0.1,
      ),
    ],
    wand: "same",
    wandWords: "The same with wands.",
    still: 1,
    sources: [{ cite: `${ANNEX} item 12`, known: "secondHand" }],
    engine: null,
    note: null,
  },
  {
    key: "normalStop",
    name: "Stop",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Come to a stop where you are.",
    movement: "Both arms out level at the sides, then slowly up until they cross above the head.",
    course: "once",
    acts: ["right", "left"],
    day: [key(both(LEVEL), 0.8, 0.7), key(RISING, 1.3), key(CROSSED, 1.3, 1.5)],
    wand: [
      key(both(arm([90, 0], [0, 0], FIST)), 0.8, 0.7),
      key(WANDS_RISING, 1.3),
      key(WANDS_CROSSED, 1.3, 1.5),
    ],
    wandWords: "The wands cross above the head.",
    still: 1,
    sources: [{ cite: `${ANNEX} item 6a`, known: "secondHand" }],
    engine: null,
    note: "Told from the emergency stop only by its slow rise. Obey both at once.",
  },
  {
    key: "emergencyStop",
    name: "Emergency stop",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Stop at once.",
    movement: "Both arms abruptly up and crossed above the head.",
    course: "once",
    acts: ["right", "left"],
    day: [key(both(arm([15, 10], [10, 90], OPEN, "reader")), 0.3, 0.4), key(CROSSED, 0.3, 2)],
    wand: [key(both(arm([15, 10], [10, 90], FIST)), 0.3, 0.4), key(WANDS_CROSSED, 0.3, 2)],
    wandWords: "The same; at night it serves for every stop.",
    still: 1,
    sources: [
      { cite: `${ANNEX} item 6b`, known: "secondHand" },
      { cite: "FAA-H-8083-3 ch. 2 fig. 2-13, at night for all stops", known: "read" },
    ],
    engine: null,
    note: "One or both wands failing is a stop too (STANAG 3117, second-hand).",
  },
  {
    key: "holdStandBy",
    name: "Hold, stand by",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Stay as you are and begin nothing until it is clear what comes next.",
    movement: "Both arms straight, 45° downwards at the sides, held still.",
    course: "held",
    acts: ["right", "left"],
    day: [key(both(DOWN_45), 0.6, 3)],
    wand: "same",
    wandWords: "The wands follow the arms.",
    still: 0,
    sources: [
      { cite: `${ANNEX}, hold position / stand by: the posture`, known: "secondHand" },
      { cite: `${ANNEX}, hold position / stand by: the full text`, known: "fromMemory" },
    ],
    engine: null,
    note: "“Emergency contained” begins in this posture, but moves.",
  },
  {
    key: "allClear",
    name: "Affirmative, all clear",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "Yes; all clear.",
    movement: "The right arm raised to head height with the thumb up; the left arm at the side by the knee.",
    course: "held",
    acts: ["right"],
    day: [key(right(forearmUp(66, 10, { is: "thumbUp" }, "in")), 0.7, 3)],
    wand: "same",
    wandWords: "The right wand points straight up.",
    still: 0,
    sources: [
      { cite: `${ANNEX} item 15: thumb up`, known: "secondHand" },
      { cite: `${ANNEX} item 15: the posture`, known: "fromMemory" },
    ],
    engine: null,
    note: null,
  },
  {
    key: "dispatch",
    name: "Dispatch",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "I have done with you: go. Eye contact is kept until the aircraft taxies.",
    movement: "A salute with the right hand.",
    course: "held",
    acts: ["right"],
    day: [key(SALUTE, 0.8, 3)],
    wand: "same",
    wandWords: "A salute with the right wand.",
    still: 0,
    sources: [{ cite: `${ANNEX}, dispatch aircraft`, known: "fromMemory" }],
    engine: null,
    note: null,
  },
  {
    key: "fire",
    name: "Fire",
    giver: "marshaller",
    direction: "Anyone on the ground to the flight crew",
    meaning: "There is a fire where I point. It reports; it orders nothing.",
    movement:
      "The right hand fans from the shoulder down to the knee, over and over, while the left arm points at the fire.",
    course: "again",
    acts: ["right", "left"],
    day: [key(FAN[0], 0.3, 0.05), key(FAN[1], 0.3, 0.05)],
    wand: "same",
    wandWords: "The same with wands.",
    still: 0,
    sources: [{ cite: "ICAO Annex 2 App 1, fire, as printed in a safety handbook", known: "read" }],
    engine: "points",
    note: "The engine's number has no gesture: it is pointed at, and spoken.",
  },
  {
    key: "fireFigureOfEight",
    name: "Fire (Navy, night)",
    giver: "marshaller",
    direction: "Anyone on the ground to the flight crew",
    meaning: "There is a fire where I point.",
    movement: "A large, fast figure of eight lying level at the waist, the other arm pointing at the fire.",
    course: "again",
    acts: ["right", "left"],
    day: (
      [
        [29, 50, 72, 87],
        [40, 22, 88, 91],
        [39, 23, 64, 93],
        [33, 42, 41, 88],
        [29, 50, 72, 87],
        [30, 88, 78, 57],
        [33, 113, 46, 39],
        [33, 114, 20, 39],
      ] as const
    ).map(([e, a, b, t]) =>
      key(right(arm([e, a], [b, t], FLAT, "down"), arm([90, 12], [0, 0], POINT)), 0.17),
    ),
    wand: "same",
    wandWords: "It is a night signal: made with wands.",
    still: 2,
    sources: [{ cite: "US Navy training text P-1212 app. B", known: "read" }],
    engine: "points",
    note: "Not a signal of the international set.",
  },
  {
    key: "pathClear",
    name: "Path clear",
    giver: "marshaller",
    direction: "Wing walker or guide to the flight crew, the marshaller or the tug",
    meaning: "Nothing is in the way. Here also used by the fire guard for the arc of a propeller.",
    movement:
      "The right hand raised above the head, pointing up; the left, pointing down, is moved in towards the body.",
    course: "again",
    acts: ["right", "left"],
    day: [
      key({ right: arm([172, 0], [0, 0], FLAT, "in"), left: arm([52, 0], [50, 180], FLAT, "in") }, 0.7, 0.3),
      key({ right: arm([172, 0], [0, 0], FLAT, "in"), left: arm([12, 0], [10, 180], FLAT, "in") }, 0.6, 0.5),
    ],
    wand: "same",
    wandWords: "The right wand points up, the left one down and is moved in towards the body.",
    still: 1,
    sources: [{ cite: `${ANNEX} item 1`, known: "read" }],
    engine: null,
    note: "Its use for a propeller's arc is ours; the text speaks of an aircraft's path.",
  },
  {
    key: "identifyGate",
    name: "This stand",
    giver: "marshaller",
    direction: TO_CREW,
    meaning: "This is the stand you come to.",
    movement: "Both arms straight above the head, pointing up.",
    course: "held",
    acts: ["right", "left"],
    day: [key(both(arm([177, 0], [0, 0], FLAT, "in")), 0.8, 3)],
    wand: "same",
    wandWords: "Both wands point up.",
    still: 0,
    sources: [{ cite: `${ANNEX} item 2`, known: "read" }],
    engine: null,
    note: null,
  },
];
