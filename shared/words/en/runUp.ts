import type { RunUpItem } from "../../protocol/commands.ts";

export const runUpItems: Readonly<Record<RunUpItem, string>> = {
  powerManifold: "manifold pressure at the common speed",
  powerRpm: "speed at that pressure",
  magnetoBoth: "speed on both magnetos",
  magnetoLeft: "speed on the left magneto",
  magnetoRight: "speed on the right magneto",
  featherBefore: "speed before feathering",
  featherLowest: "lowest speed with the feather button pulled out",
  featherAfter: "speed after feathering",
};
