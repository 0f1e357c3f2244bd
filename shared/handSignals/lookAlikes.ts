/** Signals that people confuse, and the difference between them. */
export interface LookAlike {
  keys: readonly string[];
  tell: string;
}

export const LOOK_ALIKES: readonly LookAlike[] = [
  {
    keys: ["normalStop", "emergencyStop", "holdStandBy"],
    tell: "All three stop you. The stop rises slowly from level arms, the emergency stop is thrown up at once, hold stands still with the arms low. At night every stop is the emergency stop.",
  },
  {
    keys: ["emergencyStop", "recommendStop"],
    tell: "The marshaller crosses the arms above the head; the fire crew crosses the wrists in front of it. Obey either.",
  },
  {
    keys: ["holdStandBy", "emergencyContained"],
    tell: "The same posture to begin with. Hold stands still; “contained” swings in below the waist and out again.",
  },
  {
    keys: ["insertChocks", "removeChocks"],
    tell: "Only the direction tells: inwards to cross, in; outwards from crossed, out.",
  },
  {
    keys: ["chocksInserted", "chocksRemoved"],
    tell: "Hands point in and meet: in. Hands point out and part: out.",
  },
  {
    keys: ["chocksInserted", "chocksInsertedOlder"],
    tell: "One meaning, two forms: above the head now, arms down in older sets. Agree on one at the brief.",
  },
  {
    keys: ["chocksRemoved", "chocksRemovedOlder"],
    tell: "One meaning, two forms: above the head now, arms down in older sets. Agree on one at the brief.",
  },
  {
    keys: ["setBrakes", "releaseBrakes"],
    tell: "The end counts: a closed fist is set, an open hand is released. Wait for the beginning and the end.",
  },
  {
    keys: ["brakesEngaged", "brakesReleased"],
    tell: "The pilot's own report, level in front of the face. It ends in a fist: engaged. It ends open: released.",
  },
  {
    keys: ["connectPower", "disconnectPower"],
    tell: "Fingertips come up to make the T: connect. The T is there and the right hand goes away: disconnect.",
  },
  {
    keys: ["allClear", "negative"],
    tell: "Arm up and thumb up: yes. Arm level and thumb down: no. By night read the wand: up or down.",
  },
  {
    keys: ["startEngine", "pathClear"],
    tell: "Both have an arm raised high. In start the lower hand circles at head height; in path clear the other one sweeps in at the hip.",
  },
];
