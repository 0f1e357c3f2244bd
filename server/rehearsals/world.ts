import { readingsAsked } from "../../shared/partners/play.ts";
import type { World } from "../../shared/partners/world.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Quantity } from "../../shared/protocol/quantity.ts";
import type { FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import { FAULT } from "../../shared/rehearsal/faults.ts";
import { goodHands } from "../../shared/rehearsal/hands.ts";
import { scriptOf, worldOf } from "../../shared/rehearsal/partner.ts";
import { going } from "../../shared/rehearsal/run.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { gaugeShows } from "../../shared/simulation/gauges.ts";
import type { Controls } from "../../shared/simulation/state.ts";
import type { InstructorWord, RunningRehearsal } from "./running.ts";

/** The instruments of each post besides the type's gauges. */
const BESIDES = {
  cockpit: ["brakePressure"],
  fireGuard: [],
  groundPower: ["cartVolts", "crankingVolts"],
  supervisor: [],
} as const satisfies Record<Post, (keyof World)[]>;

/** One instrument as a post sees it: a gauge of the type, or one of those besides. */
interface Shown {
  gauge: string;
  engine: number | null;
  reading: Quantity;
}

/** What one person sees of the simulated world, from where they stand. */
export interface SeenWorld {
  /** Seconds of the rehearsal. */
  t: number;
  frozen: boolean;
  speed: number;
  /** It runs slower than that, because starts come first. */
  slowed: boolean;
  instruments: Shown[];
  /** The figures that their post is asked for and that no instrument shows, by the ask's key. */
  asked: { ask: string; reading: Quantity }[];
  /** What they see go wrong. Whoever watches without a post sees everything. */
  sees: { fault: FaultKind; engine: number | null }[];
  /** What the instructor says to their post: it is no ask. */
  word: InstructorWord | null;
  controls: Controls;
  /** False while good hands work the controls. */
  byHand: boolean;
}

/** Returns what this person sees now: every post the instruments that it is asked to read, and what is in its sight. */
export function worldFor(
  rehearsal: RunningRehearsal,
  state: SessionState,
  person: { id: string; device: string },
): SeenWorld {
  const { playing, frozen, speed, hands } = rehearsal.view;
  const { run } = playing;
  const post = postHeld(state, person);
  const at: readonly (Post | null)[] = [post];
  const inCockpit = post === null || post === "cockpit";
  return {
    t: Math.round(run.t),
    frozen,
    speed,
    slowed: rehearsal.isSlowed,
    instruments: [
      ...(inCockpit ? gauges(rehearsal, state) : []),
      ...(post === null ? POSTS : [post]).flatMap((of) => besides(rehearsal, state, of)),
    ],
    asked: post === null ? [] : asked(rehearsal, state, post),
    sees: going(run)
      .filter(({ fault }) => post === null || FAULT[fault].seenBy.some((p) => at.includes(p)))
      .map(({ fault, engine }) => ({ fault, engine })),
    word: post === null ? null : rehearsal.wordTo(post),
    controls: hands ?? goodHands(run, state),
    byHand: hands !== null,
  };
}

function besides(rehearsal: RunningRehearsal, state: SessionState, post: Post): Shown[] {
  const world = worldOf(rehearsal.view.playing.run, state);
  return BESIDES[post].flatMap((gauge) => {
    const reading = world[gauge]();
    return reading ? [{ gauge, engine: null, reading }] : [];
  });
}

/** Figures of asks at most: those in front, so that they do not cover the panel. */
const MOST_ASKED = 3;

function asked(rehearsal: RunningRehearsal, state: SessionState, post: Post): SeenWorld["asked"] {
  const { run } = rehearsal.view.playing;
  return readingsAsked(state, post, rehearsal.now, scriptOf(run, state, 1))
    .slice(0, MOST_ASKED)
    .map(({ ask, reading }) => ({ ask: ask.key, reading }));
}

function gauges(rehearsal: RunningRehearsal, state: SessionState): Shown[] {
  const { plant, sim } = rehearsal.view.playing.run;
  return state.type.gauges.flatMap(({ id, perEngine }) =>
    (perEngine ? state.engines.map(({ n }) => n) : [null]).flatMap((engine) => {
      const reading = gaugeShows(plant, sim, id, engine);
      return reading ? [{ gauge: id, engine, reading }] : [];
    }),
  );
}
