import type { RunUpItem } from "../protocol/commands.ts";

/** The items of each check, in the order of the models' fields. */
export const CHECK_ITEMS = {
  power: ["powerManifold", "powerRpm"],
  magneto: ["magnetoBoth", "magnetoLeft", "magnetoRight"],
  feather: ["featherBefore", "featherLowest", "featherAfter"],
} as const satisfies Record<string, readonly RunUpItem[]>;
export type RunUpCheck = keyof typeof CHECK_ITEMS;
