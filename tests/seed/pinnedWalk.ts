import { personAt, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { findAll } from "../../shared/conditions/all.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { requirementsOf } from "../../shared/plan/requirements.ts";
import { type Action, actionSchema } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import type { Person } from "../../shared/session/step.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { Chance } from "../sim/chance.ts";
import { purposeAt, sha256 } from "../spec/given.ts";
import { tried } from "../spec/walk.ts";
import { LIVELY } from "../spec/walks.ts";
import { anything } from "./chaos.ts";
import { playOut } from "./stage.ts";

const STAGES = [
  ...(["plan", "brief", "secure", "starting", "warmUp", "release"] as const),
  ...(["arrival", "stopping", "stowing"] as const),
];
/** Beyond a stage's beginning, partners play on for up to this long, so that the walks begin in different states. */
const FURTHER_MS = 240_000;
const MOVES = 50;
/** Digits of an outcome's digest that are kept. Two different outcomes agree by chance once in 16 million. */
const DIGITS = 6;

/** One pinned walk: a type, the stage it begins in, and the seed of everything else. */
export interface PinnedWalk {
  name: string;
  type: AircraftType;
  stage: (typeof STAGES)[number];
  seed: number;
}

export const WALKS: readonly PinnedWalk[] = [LIVELY, ...demo.types].flatMap((type, t) =>
  STAGES.map((stage, s) => {
    const seed = 1 + t * STAGES.length + s;
    return { name: `${seed}: ${type.id}, ${stage}`, type, stage, seed };
  }),
);

/** One person at each post, the supervisor also on a second device, and one without a post. */
const PEOPLE: readonly Person[] = [
  ...POSTS.map(personAt),
  { ...personAt("supervisor"), device: "another" },
  { ...personAt("cockpit"), id: "p-observer", name: "Observer", device: "d-observer", mayHold: [] },
];

/** Returns what everybody can tell at this moment: what is asked and missing, and when time changes it. */
const seenIn = ({ state, now }: Stage): unknown => ({
  asked: POSTS.map((post) => askedOf(state, post, now)),
  found: state.stage === "starting" ? state.engines.map(({ n }) => findAll(state, n, now)) : [],
  required: requirementsOf(state, now),
  deadline: nextDeadline(state),
});

/** Returns the move of a turn: half of the time of a crew with troubles, else of anybody who tries anything. */
function moveOf(
  stage: Stage,
  chance: Chance,
  seed: number,
  turn: number,
): { who: Person; action: Action } | null {
  if (chance.is(0.5)) {
    const done = anything(stage.state, seed, turn, stage.now);
    return done && { who: personAt(done.post), action: done.action };
  }
  const die = () => chance.below(100_000);
  const { who, action } = tried(stage.state, [die(), die(), die(), die()], stage.now, PEOPLE);
  return { who, action: actionSchema.parse(action) };
}

/** Plays a walk. Returns its moves, and a digest of what came of each. */
export function playWalk({ type, stage: from, seed }: PinnedWalk): { moves: string[]; digests: string } {
  const chance = new Chance(seed);
  const stage = new Stage(type, seed % 3 === 0 ? "batteries" : "groundPower", { purpose: purposeAt(from) });
  stage.everyoneClaims();
  const script = { seed, pace: 1, cart: "Knocker" };
  playOut(stage, script, from);
  const until = stage.now + chance.below(FURTHER_MS);
  playOut(stage, script, (state) => state.at >= until || state.stage !== from);
  const moves: string[] = [];
  const digests: string[] = [];
  for (let turn = 0; turn < MOVES; turn += 1) {
    const { length } = stage.events;
    stage.now += chance.is(0.5) ? 0 : chance.below(chance.is(0.1) ? 60_000 : 5_000);
    stage.catchUp();
    const move = moveOf(stage, chance, seed, turn);
    const refusal = move && stage.do(move.who, move.action).refusal;
    const outcome = { events: stage.events.slice(length), refusal, seen: seenIn(stage) };
    moves.push(move ? `${move.who.id}: ${JSON.stringify(move.action)}` : "nobody does anything");
    digests.push(sha256(canonical(JSON.parse(JSON.stringify(outcome)))).slice(0, DIGITS));
  }
  return { moves, digests: digests.join(" ") };
}
