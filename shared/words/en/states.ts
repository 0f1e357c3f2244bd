import type { EngineLife } from "../../engine/life.ts";
import type { VoidCause } from "../../protocol/events.ts";
import type { Post } from "../../protocol/posts.ts";
import type { FirePlace } from "../../protocol/signals.ts";
import type { Stage } from "../../protocol/stages.ts";

export const posts: Readonly<Record<Post, string>> = {
  cockpit: "Cockpit",
  fireGuard: "Fire guard",
  groundPower: "Ground power",
  supervisor: "Supervisor",
};

export const stages: Readonly<Record<Stage, string>> = {
  plan: "Plan",
  brief: "Brief",
  secure: "Secure",
  powerUp: "Power-up checks",
  groundPower: "Ground power",
  starting: "Starting",
  warmUp: "Warm-up",
  release: "Release",
  arrival: "Arrival",
  stopping: "Stopping",
  stowing: "Stowing",
  closed: "Closed",
  abandoned: "Abandoned",
};

export const lives: Readonly<Record<EngineLife["is"], string>> = {
  waiting: "Waiting",
  requested: "Asked for",
  clear: "Clear",
  cranking: "Cranking",
  caught: "Caught",
  running: "Running",
  stable: "Stable",
  shutDown: "Shut down",
  cooling: "Cooling",
  fire: "Fire",
};

export const firePlaces: Readonly<Record<FirePlace, string>> = {
  induction: "Induction",
  exhaust: "Exhaust",
  nacelle: "Nacelle",
  groundEquipment: "Ground equipment",
  notSaid: "Place not said",
};

export const voids: Readonly<Record<VoidCause, string>> = {
  expired: "its time ran out",
  epoch: "there was a stop, a change of post or a restart",
  condition: "something it needs has changed",
  revoked: "it was taken back",
  readBackWrong: "it was read back wrong",
  stageLeft: "the session left the starting stage",
};

/** The caution on every panel, page and export. */
export const caution =
  "Chockside supports hand signals, the approved manual and trained crews; it never replaces them. " +
  "Local rules and licensed people decide. A button here is a message, not an emergency stop.";
