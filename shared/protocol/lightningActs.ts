import type { Post } from "./posts.ts";

/** The acts that a type may ask of each post while lightning stops work. A type that does not say asks for the first. */
export const LIGHTNING_ACTS = {
  cockpit: ["startNothing", "leaveAircraft"],
  fireGuard: ["shelter"],
  groundPower: ["clearOfCable", "unplug"],
  supervisor: ["clearRamp"],
} as const satisfies Record<Post, readonly [string, ...string[]]>;
export type LightningAct = (typeof LIGHTNING_ACTS)[Post][number];
