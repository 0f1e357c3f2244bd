import fc from "fast-check";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";
import { type Story, towards } from "./given.ts";
import { STOPPED } from "./stoppable.ts";
import { type Dice, tried } from "./walk.ts";

const s = (value: number) => ({ value, unit: "s", source: FOUR.orderSource }) as const;
/** Everything that time can do happens within a walk. */
export const LIVELY: AircraftType = {
  ...STOPPED,
  overridable: ["guardInPlace", "othersSettled"],
  timing: {
    ...FOUR.timing,
    resound: s(30),
    presenceSeen: s(15),
    presenceHeard: s(30),
    presenceHold: s(45),
    override: s(20),
  },
};
const STAGES = [
  ...(["plan", "secure", "starting", "starting", "starting", "warmUp", "release"] as const),
  ...(["arrival", "stopping", "stopping", "stowing"] as const),
];
const standing = new Map<AircraftType, Map<string, Story>>();
function from(stage: (typeof STAGES)[number], type: AircraftType): Story {
  const ofType = standing.get(type) ?? new Map<string, Story>();
  standing.set(type, ofType);
  const known =
    ofType.get(stage) ??
    towards(stage, { type, order: [3, 4] })
      .manned()
      .upTo(stage);
  ofType.set(stage, known);
  return known.copy();
}

const die = fc.nat(100_000);
const step = fc.record({
  dice: fc.tuple(die, die, die, die),
  ms: fc.oneof(
    { weight: 5, arbitrary: fc.constant(0) },
    { weight: 5, arbitrary: fc.nat(3_000) },
    { weight: 1, arbitrary: fc.nat(60_000) },
  ),
  trouble: fc.nat(60),
});
const walk = fc.record({
  stage: fc.constantFrom(...STAGES),
  steps: fc.array(step, { minLength: 5, maxLength: 45 }),
});

/** Called after each move with the state before it, the story after it, and the new events. */
export type Look = (before: SessionState, story: Story, events: readonly SessionEvent[]) => void;

/** Checks the story between every two steps; the first broken rule ends the walk with its reason. */
function follow(
  stage: (typeof STAGES)[number],
  steps: { dice: Dice; ms: number; trouble: number }[],
  look: Look,
  type: AircraftType,
) {
  const story = from(stage, type);
  for (const { dice, ms, trouble } of steps) {
    const moves: (() => unknown)[] = [() => story.waitMs(ms)];
    if (trouble === 0) moves.push(() => story.restart());
    if (trouble === 1) moves.push(() => story.clockStep((dice[0] % 7_200_000) - 3_600_000));
    moves.push(() => {
      const { who, action } = tried(story.state, dice, story.now);
      return story.does(who, action);
    });
    for (const move of moves) {
      const before = story.state;
      const { length } = story.log;
      move();
      look(before, story, story.log.slice(length));
    }
  }
  return story;
}

/** Walks sixty random ways through a session, with `look` between every two steps and `after` at the end of each. */
export const walks = (look: Look, after: (story: Story) => void = () => {}, type = LIVELY) =>
  fc.assert(
    fc.property(walk, ({ stage, steps }) => {
      after(follow(stage, steps, look, type));
    }),
    { numRuns: 60, seed: 20_260_601 },
  );
