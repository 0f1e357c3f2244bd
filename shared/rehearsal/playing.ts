import { isTurning, plain } from "../engine/life.ts";
import { type Intent, intend } from "../partners/play.ts";
import type { Action } from "../protocol/commands.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { Rehearsed } from "../protocol/rehearsedFact.ts";
import { isOver, type SessionState } from "../session/state.ts";
import type { Controls } from "../simulation/state.ts";
import { goodHands } from "./hands.ts";
import { type PartnerMove, partnerMove } from "./partner.ts";
import { advance, type Run, type Struck } from "./run.ts";

/** A rehearsal that is played: its world, and what each partner is about to do. */
export interface Playing {
  run: Run;
  intents: Readonly<Partial<Record<Post, Intent>>>;
  /** Words about faults that partners said. */
  said: readonly string[];
  /** Seconds of the rehearsal since a partner last had something to do. */
  idleS: number;
  /** What the aircraft suffered, as recorded last: each as JSON. */
  noted: readonly string[];
  /** The partners' last look around: its moment, the session's event then, and the moves in the world until then. */
  looked: { t: number; seq: number; moved: string };
  /** A partner's last act: its moment, and the session's last event before it. Null when none has acted. */
  acted: { t: number; seq: number } | null;
}

/** What one step needs from outside. */
export interface Around {
  /** Server time, milliseconds. */
  now: number;
  /** Seconds of the rehearsal that pass in this step. */
  seconds: number;
  /** How much faster than people the partners are. */
  pace: number;
  /** The posts that partners hold. */
  partners: readonly Post[];
  /** What a person does in the cockpit; null while a partner is there. */
  hands: Controls | null;
}

export interface Played {
  playing: Playing;
  /** What to record of the world. */
  facts: Rehearsed[];
  /** The one thing that a partner says or does now; null for nothing. */
  act: { post: Post; action: Action } | null;
}

/** Seconds without anything to do after which the partners give the attempt up. */
const IDLE_S = 60;
/** The same while a person holds a post: whoever learns reads, thinks and looks for a key. */
const PEOPLE_S = 15 * 60;
/** Seconds of a rehearsal after which they give it up in any case. */
const LONGEST_S = 40 * 60;
/** Seconds between two steps of giving up. */
const GIVES_UP_S = 4;
/** The reason that partners give for it. */
const NOTHING_LEFT = "Nothing left to do";

/** Seconds after which the partners look around again although nothing happened: a look takes most of a step. */
const LOOKS_S = 3;

/** Seconds for which the partners wait to hear what came of an act: it may have been lost. */
const HEARS_S = 10;

export const beginPlaying = (run: Run): Playing => ({
  ...{ run, intents: {}, said: [], idleS: 0, noted: [] },
  looked: { t: Number.NEGATIVE_INFINITY, seq: 0, moved: "" },
  acted: null,
});

/**
 * Returns the rehearsal one step later. Pure: the same states and times give the same. At most one partner acts in a
 * step, so that the next one decides on what came of it.
 */
export function playStep(before: Playing, state: SessionState, around: Around): Played {
  const { now, seconds, pace, partners } = around;
  const hands = around.hands ?? goodHands(before.run, state);
  const { run, began } = advance(before.run, state, hands, seconds);
  const suffered = sufferedMore(before.run, run) ? sufferedOf(run) : [];
  const suffers = suffered.filter((one) => !before.noted.includes(JSON.stringify(one)));
  const facts = [...began.map(factOf), ...suffers];
  const noted = suffers.length === 0 ? before.noted : suffered.map((one) => JSON.stringify(one));
  if (isOver(state) || waitsToHear(before, run, state))
    return { playing: { ...before, run, noted }, facts, act: null };
  const moved = movedIn(run);
  const patience = idleLimit(state, partners);
  const all = looksAround(before, run, state, moved) || before.idleS >= patience;
  const isDue = (post: Post) => (before.intents[post]?.at ?? Number.POSITIVE_INFINITY) <= now;
  const look = partners.filter((post) => all || isDue(post));
  if (look.length === 0 && !all) {
    const idleS = before.idleS > 0 ? before.idleS + seconds : 0;
    return { playing: { ...before, run, noted, idleS }, facts, act: null };
  }
  const looked = all ? { t: run.t, seq: state.seq, moved } : before.looked;
  const said = new Set(before.said);
  const intents: Partial<Record<Post, Intent>> = all ? {} : { ...before.intents };
  let due: (PartnerMove & { post: Post; at: number }) | null = null;
  for (const post of POSTS) {
    if (!look.includes(post)) continue;
    delete intents[post];
    const next = partnerMove(run, state, post, { partners, said, now, pace });
    const intent = intend(before.intents[post] ?? null, next?.move ?? null, now);
    if (!next || !intent) continue;
    intents[post] = intent;
    if (intent.at <= now && (due === null || intent.at < due.at)) due = { ...next, post, at: intent.at };
  }
  const idleS = Object.keys(intents).length === 0 ? before.idleS + seconds : 0;
  if (due && run.t <= LONGEST_S) {
    const { post, move, word } = due;
    delete intents[post];
    const playing = {
      run,
      intents,
      said: word === null ? before.said : [...before.said, word],
      idleS: 0,
      noted,
      looked,
      acted: { t: run.t, seq: state.seq },
    };
    return { playing, facts, act: { post, action: move.action } };
  }
  const given = idleS >= patience || run.t > LONGEST_S ? givesUp(state, partners, run.t, seconds) : null;
  return { playing: { ...before, run, intents, idleS, noted, looked }, facts, act: given };
}

/**
 * Returns true while what a partner did last is not recorded. A world that lags behind the clock sees it late: its
 * partners would do the same thing twice, and the second time is refused.
 */
const waitsToHear = ({ acted }: Playing, run: Run, state: SessionState): boolean =>
  acted !== null && state.seq <= acted.seq && run.t - acted.t < HEARS_S;

/**
 * All partners look around when something was recorded or an engine does something else, when a fault is over, and else
 * once in a while. Whoever is due to act looks in any case.
 */
function looksAround({ looked }: Playing, run: Run, state: SessionState, moved: string): boolean {
  return (
    state.seq !== looked.seq || moved !== looked.moved || run.t - looked.t >= LOOKS_S || run.t > LONGEST_S
  );
}

/** Returns the seconds without anything to do after which the partners give up: they wait longer for people. */
const idleLimit = ({ posts }: SessionState, partners: readonly Post[]): number =>
  POSTS.every((post) => posts[post] === null || partners.includes(post)) ? IDLE_S : PEOPLE_S;

/** Returns what the world does, apart from its figures: it is the same while nothing in it moved that asks for a look. */
const movedIn = ({ sim, struck }: Run): string =>
  `${sim.engines.map(({ is }) => is).join()} ${struck.filter((s) => s.endedAt === null).length}`;

/**
 * Returns what a partner does who gives the attempt up, once in some seconds: the cockpit stops what still turns, then
 * the supervisor and the cockpit abandon in turn, because a second one may have to agree.
 */
function givesUp(state: SessionState, partners: readonly Post[], t: number, seconds: number): Played["act"] {
  const turn = Math.floor(t / GIVES_UP_S);
  if (Math.floor((t - seconds) / GIVES_UP_S) === turn) return null;
  const may = (["supervisor", "cockpit"] as const).filter((p) => partners.includes(p));
  const turning = state.engines.find(({ life }) => isTurning(life));
  if (turning) {
    const { n, life } = turning;
    const kind = plain(life).is === "cranking" ? "startAbandoned" : "shutDown";
    if (!may.includes("cockpit")) return null;
    return {
      post: "cockpit",
      action: { type: "send", kind, channel: "panel", engine: n, note: NOTHING_LEFT },
    };
  }
  const post = may[turn % Math.max(1, may.length)];
  return post ? { post, action: { type: "abandon", reason: NOTHING_LEFT } } : null;
}

/** Returns the fact by which a fault's beginning is recorded. */
const factOf = ({ fault, engine, post }: Struck): Rehearsed => ({
  is: "fault",
  fault,
  ...(engine === null ? {} : { engine }),
  ...(post === null ? {} : { post }),
});

/** Steps in which the record follows what the aircraft suffers: kelvins, and seconds. */
const NOTED = { heat: 10, seconds: 5 } as const;

/** Returns true when the aircraft suffered something in the last step. */
const sufferedMore = (before: Run, { sim }: Run): boolean =>
  sim.engines.some(({ hottestK, withoutOilS }, i) => {
    const then = before.sim.engines[i];
    return hottestK !== then?.hottestK || withoutOilS !== then.withoutOilS;
  });

/** Returns what the aircraft suffered so far in whole steps, against the type's limits where it has any. */
function sufferedOf({ plant, sim }: Run): Rehearsed[] {
  const most = plant.type.starter.heat?.most.value ?? null;
  const within = plant.type.oil.firstIndication.within.value;
  const down = (value: number, step: number) => Math.floor(value / step) * step;
  return sim.engines.flatMap(({ n, hottestK, withoutOilS }): Rehearsed[] => {
    const heat = down(hottestK, NOTED.heat);
    const dry = down(withoutOilS, NOTED.seconds);
    const one = { is: "suffered", engine: n } as const;
    return [
      ...(heat > 0 ? [{ ...one, what: "starterHeat", found: heat, allowed: most, unit: "K" } as const] : []),
      ...(dry > 0 ? [{ ...one, what: "withoutOil", found: dry, allowed: within, unit: "s" } as const] : []),
    ];
  });
}
