import { conditionOf } from "../conditions/all.ts";
import type { Fact } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { stillCovers } from "./overridden.ts";

/**
 * Returns the overrides that end. An override waits a limited time for its second person, serves one start in one
 * epoch, and covers only what the two people saw.
 */
export function overridesEnded(state: SessionState, now: number): Fact[] {
  const limit = state.type.timing.override.value * 1000;
  return state.overrides.flatMap((o): Fact[] => {
    const ended = (why: "late" | "epoch" | "used" | "stageLeft" | "changed"): Fact[] => [
      { type: "overrideEnded", override: o.id, why },
    ];
    if (o.epoch !== state.epoch) return ended("epoch");
    if (state.stage !== "starting") return ended("stageLeft");
    const engine = state.engines[o.engine - 1];
    const used = o.second !== null && engine !== undefined && (engine.starter.at(-1)?.on ?? 0) >= o.second.at;
    if (used) return ended("used");
    const finding = conditionOf(o.condition).find(state, o.engine, now);
    if (!stillCovers(state, o, finding, now)) return ended("changed");
    return o.second === null && now >= o.first.at + limit ? ended("late") : [];
  });
}

/**
 * Returns the moments at which time alone ends an override: the second person did not come, or another person's date
 * passes.
 */
export function overrideMoments(state: SessionState): number[] {
  return state.overrides.flatMap((o) => {
    const late = o.second === null ? [o.first.at + state.type.timing.override.value * 1000] : [];
    if (o.condition !== "postsCurrent" || o.seen === undefined) return late;
    const dates = Object.values(state.posts).flatMap((holder) => holder?.currentUntil ?? []);
    return [...late, ...dates.filter((at) => at > state.at)];
  });
}
