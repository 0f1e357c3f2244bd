import { engineOf } from "../session/state.ts";
import type { Condition } from "./condition.ts";
import { NOBODY_SAID } from "./said.ts";

/**
 * The engine's blades were counted through with no resistance within the type's interval, or the engine ran lately
 * enough. A liquid lock bends a rod (FAA-H-8083-30 ch. 11); how many and how long is the type's choice.
 */
export const bladesCounted: Condition = {
  id: "bladesCounted",
  owners: ["groundPower", "fireGuard"],
  find(state, engine, now) {
    const rule = state.type.bladeCount;
    const e = engineOf(state, engine);
    if (!e) return NOBODY_SAID;
    const dueAfter = rule.dueAfter.value * 1000;
    const count = e.blades;
    const by = count && { post: count.by.post, name: count.by.name };
    // Resistance felt after the last run is a no, however lately the engine ran.
    if (count?.resistance) return { is: "no", at: count.by.at, by, until: null, found: "resistance" };
    const ranAt = e.lastRanAt;
    if (ranAt !== null && now - ranAt < dueAfter) {
      const enough = count && count.blades >= rule.blades.value;
      const until = Math.max(ranAt, enough ? count.by.at : ranAt) + dueAfter;
      return { is: "yes", at: ranAt, by: null, until };
    }
    if (!count) return NOBODY_SAID;
    if (count.blades < rule.blades.value) {
      return { is: "no", at: count.by.at, by, until: null, found: `${count.blades} of ${rule.blades.value}` };
    }
    const until = count.by.at + dueAfter;
    return { is: now >= until ? "stale" : "yes", at: count.by.at, by, until };
  },
};
