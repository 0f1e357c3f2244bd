import { DEFINITIONS } from "../../shared/conditions/all.ts";
import { CONDITION_IDS, type ConditionId } from "../../shared/protocol/conditions.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Drill, Trigger } from "../../shared/types/drill.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "../spec/aircraft.ts";

const source = { basis: "invented", text: "for tests" } as const;
const seconds = (value: number) => ({ value, unit: "s", source }) as const;

/** The type with some of its times changed, in seconds. */
export function withTiming(
  type: AircraftType,
  timing: Partial<Record<keyof AircraftType["timing"], number>>,
) {
  const changed = Object.entries(timing).map(([key, value]) => [key, seconds(value)]);
  return { ...type, timing: { ...type.timing, ...Object.fromEntries(changed) } };
}

/** Alerts that sound again after 30 s. */
export const SOUNDING = withTiming(FOUR, { resound: 30 });

/** Presence asked for after 15 s and held after 45 s of silence; asked for again at 90 s and held at 120 s. */
export const WATCHED_AGAIN = withTiming(FOUR, {
  presenceSeen: 15,
  presenceHeard: 30,
  presenceHold: 45,
  presenceAgain: 90,
  arcClear: 600,
});

/** Presence asked for after 15 s and held after 45 s of silence, whether heard before or not. */
export const WATCHED = withTiming(FOUR, {
  presenceSeen: 15,
  presenceHeard: 30,
  presenceHold: 45,
  arcClear: 120,
});

/** Only its condition asks for it: no stage waits for it. */
const check = (id: string, post: Post) => ({ id, words: id, stage: "closed", post, source }) as const;

const EXTRA: readonly ConditionId[] = CONDITION_IDS.filter((id) => !FOUR.conditions.includes(id));

/** Each check of a condition, given to the post that has it on a usual ramp. */
const USUALLY: Readonly<Record<string, Post>> = {
  extinguisher: "fireGuard",
  cartOutputOff: "groundPower",
  generatorsCarry: "cockpit",
};
const CHECKS = DEFINITIONS.flatMap((c) => c.check ?? []).map((id) => check(id, USUALLY[id] ?? "supervisor"));

/** Returns the test type with more conditions. */
export function applying(...more: ConditionId[]): AircraftType {
  const starter = { ...FOUR.starter, attempts: { value: 10, unit: "count", source } as const };
  return { ...FOUR, starter, checks: [...FOUR.checks, ...CHECKS], conditions: [...FOUR.conditions, ...more] };
}

/** The test type with every condition. */
export const STRICT = applying(...EXTRA);

/** Brakes, wind and the guard may be set aside by two people. */
export const LENIENT: AircraftType = {
  ...applying("windWithinLimits"),
  overridable: ["windWithinLimits", "brakesSet", "guardInPlace"],
};

const step = (words: string) => ({ words, withinS: null });

/** Returns a drill with two steps for the cockpit and one for the guard. */
export function drill(id: string, ...triggers: Trigger[]): Drill {
  return {
    id,
    title: id,
    triggers,
    cards: {
      cockpit: [step("first"), step("second")],
      fireGuard: [step("look")],
      groundPower: [],
      supervisor: [],
    },
    source,
  };
}

export function drilled(...drills: Drill[]): AircraftType {
  return { ...applying("bladesCounted"), checks: FOUR.checks, drills };
}
