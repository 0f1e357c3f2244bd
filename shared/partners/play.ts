import { type Ask, type Choice, fill } from "../asks/ask.ts";
import { askedOf } from "../asks/asked.ts";
import type { ChoiceWord } from "../asks/choiceWord.ts";
import { boundsOf, withinBounds } from "../card/judge.ts";
import { isBad } from "../card/places.ts";
import { plain } from "../engine/life.ts";
import type { Action } from "../protocol/commands.ts";
import type { Post } from "../protocol/posts.ts";
import type { Quantity } from "../protocol/quantity.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { between } from "./chance.ts";
import {
  brakePressure,
  breeze,
  cardFigure,
  cartVolts,
  checkFigure,
  crankEnds,
  crankingVolts,
  gaugeFigure,
  runUpFigure,
} from "./pretend.ts";
import type { Script } from "./script.ts";

/** The next action of a partner. */
export interface Move {
  /** Stays the same while the same answer to the same ask is meant. */
  key: string;
  action: Action;
  /** Time a person needs once they see the ask, milliseconds. */
  pauseMs: number;
  /** Server time before which the action is impossible: the engine still turns, or the oil is still cold. */
  notBefore: number;
}

/** Seconds a person needs, from and to: by the answer where it takes walking or work, else by the ask's weight. */
const TAKES: Readonly<Partial<Record<ChoiceWord, readonly [number, number]>>> = {
  guardInPlace: [4, 9],
  arcClear: [2, 4],
  chocksIn: [5, 9],
  chocksOut: [5, 9],
  powerConnected: [5, 9],
  lowestVolts: [2, 4],
  readRunUp: [4, 9],
  powerDisconnected: [4, 8],
  briefed: [3, 7],
  readBack: [1, 2.4],
  fireOut: [12, 25],
  resetCut: [12, 18],
  releaseFor: [6, 10],
  onStand: [20, 40],
  propellerStill: [8, 15],
};
const TAKES_BY_WEIGHT: Readonly<Record<Ask["weight"], readonly [number, number]>> = {
  0: [0.6, 1.4],
  1: [1, 2],
  2: [0.9, 2.2],
  3: [2, 5],
  4: [2, 5],
};

/** Seconds between two readings of a gauge: while oil pressure rises, and while the engine warms up. */
const LOOK_AGAIN = { oilPressure: 1.5, other: 15 } as const;

/** Seconds before a restart of an engine that was shut down. */
const AFTER_SHUT_DOWN = 30;

/** While an ask of this weight or less is in progress, a partner does nothing of a greater weight. */
const HANDS_FULL = 2;

/**
 * Returns the partner's next move at this post; null when it can answer no ask. It answers the first ask of
 * `askedOf`; of the asks that can wait, the first that is ready. Pure: the same state, time and script give the same
 * move.
 * @param now server time, milliseconds
 */
export function playPost(state: SessionState, post: Post, now: number, script: Script): Move | null {
  const moves: Move[] = [];
  for (const ask of askedOf(state, post, now)) {
    const move = answer(state, post, ask, now, script);
    if (!move) continue;
    if (ask.weight <= HANDS_FULL || move.notBefore <= now) return move;
    moves.push(move);
  }
  return moves.sort((a, b) => a.notBefore - b.notBefore)[0] ?? null;
}

/** The defect that a partner writes of an engine that was shut down without oil pressure. */
const LOOKED_AT = "Looked at: gauge line";

/** The reason that a partner writes for an engine that was stopped before it had cooled. */
export const STOPPED_WARM = "Rough at idle: stopped at once";

/** The source of a partner's forecast of the night. */
const FORECAST_FROM = "Weather office";

const reasonFor = ({ say }: Ask): string => (say === "coolDownRemark" ? STOPPED_WARM : LOOKED_AT);

function answer(state: SessionState, post: Post, ask: Ask, now: number, script: Script): Move | null {
  const chosen = choose(state, ask, now, script);
  if (!chosen) return null;
  const figure = figureFor(state, ask, chosen, now, script);
  // An instrument that still shows it is not good was told of already.
  if (figure && chosen.draft.type === "answerCard" && isStillBad(state, chosen.draft, figure)) return null;
  const filled = fill(chosen, {
    ...(ask.engine === null ? {} : { engine: ask.engine }),
    ...(figure ? { figure } : {}),
    ...(ask.say === "oilUnknown" || chosen.need?.is === "words" ? { reason: reasonFor(ask) } : {}),
    ...(chosen.need?.is === "forecast" ? { reason: FORECAST_FROM } : {}),
    ...(chosen.need?.is === "blades" ? { blades: { blades: chosen.need.atLeast, resistance: false } } : {}),
    ...(chosen.need?.is === "standsAt" ? { standsAt: state.aircraft } : {}),
    ...(chosen.need?.is === "weather" ? { weather: breeze(state.type.wind, script) } : {}),
  });
  if (!filled) return null;
  const takes = TAKES[chosen.word] ?? TAKES_BY_WEIGHT[ask.weight];
  const seconds = between(takes[0], takes[1], script.seed, post, ask.key, state.seq);
  return {
    key: `${ask.key} ${chosen.word}`,
    action: withCart(filled, script),
    pauseMs: (seconds * 1000) / script.pace,
    notBefore: ripeAt(state, ask, chosen, script),
  };
}

/**
 * Returns the answer that continues the start. A partner answers no only to a starter at its limit, and never ends
 * another person's hold.
 */
function choose(state: SessionState, ask: Ask, now: number, script: Script): Choice | null {
  const engine = ask.engine === null ? undefined : engineOf(state, ask.engine);
  if (ask.say === "cranking" && engine) {
    const word = crankEnds(engine, script).caught ? "caught" : "startAbandoned";
    return ask.choices.find((c) => c.word === word) ?? null;
  }
  if (ask.say === "alert.starterLimit" && engine) {
    const word = crankEnds(engine, script).caught ? "releasedCaught" : "releasedAbandoned";
    return ask.choices.find((c) => c.word === word) ?? null;
  }
  if (ask.choices.some((c) => c.word === "alive")) return seenAlive(state, ask, now, script);
  if (ask.say === "absentHold") return null;
  return ask.choices.find((c) => c.tone !== "no") ?? null;
}

/**
 * Returns what a partner says of an instrument that must come alive: not alive once its time is over, and nothing
 * while it may still come, or was told of already.
 */
function seenAlive(
  state: SessionState,
  { engine, dueAt, choices }: Ask,
  now: number,
  script: Script,
): Choice | null {
  const yes = choices.find((c) => c.word === "alive") ?? null;
  if (yes?.draft.type !== "answerCard") return yes;
  const id = yes.draft.item;
  const item = state.type.card?.find((i) => i.id === id);
  const gauge = state.type.gauges.find((g) => item?.kind.is === "alive" && g.id === item.kind.gauge);
  const shown = gauge && script.world?.gauge(gauge.perEngine ? engine : null, gauge.id);
  if (!item || !gauge || !shown) return yes;
  if (shown.value >= (gauge.min ?? gauge.normalLow ?? gauge.scale.from + gauge.scale.step)) return yes;
  if (isBad(state, { item, engine }) || now < (dueAt ?? 0)) return null;
  return choices.find((c) => c.word === "notAlive") ?? null;
}

/** Returns true when an item of the card was read as not good before, and is not by this figure either. */
function isStillBad(
  state: SessionState,
  { item: id, engine }: { item: string; engine?: number | undefined },
  { value }: Quantity,
): boolean {
  const item = state.type.card?.find((i) => i.id === id);
  const bounds = item && boundsOf(state, item);
  if (!item || !bounds?.ok || !isBad(state, { item, engine: engine ?? null })) return false;
  return !withinBounds(bounds.value, value);
}

/**
 * Returns what a partner at this post would read for each figure that it is asked for now and that no gauge shows:
 * checks, items of the card and the run-up.
 */
export function readingsAsked(
  state: SessionState,
  post: Post,
  now: number,
  script: Script,
): { ask: Ask; reading: Quantity }[] {
  return askedOf(state, post, now).flatMap((ask) => {
    const chosen = choose(state, ask, now, script);
    if (!chosen || chosen.draft.type === "send" || chosen.draft.type === "reading") return [];
    const reading = figureFor(state, ask, chosen, now, script);
    return reading ? [{ ask, reading }] : [];
  });
}

function figureFor(
  state: SessionState,
  ask: Ask,
  chosen: Choice,
  now: number,
  script: Script,
): Quantity | null {
  if (chosen.need?.is !== "figure" && chosen.need?.is !== "forecast") return null;
  const { draft } = chosen;
  if (draft.type === "send") {
    if (draft.kind === "brakesSet") return brakePressure(state, script);
    return ask.say === "voltsCranked" ? crankingVolts(state, script) : cartVolts(state, script);
  }
  if (draft.type === "recordCheck") {
    const check = state.type.checks.find((c) => c.id === draft.check);
    const shown = check && script.world?.check(check);
    if (shown) return shown;
    const range = check?.range;
    return range ? checkFigure(range, script, draft.check) : null;
  }
  if (draft.type === "answerCard") return cardFigure(state, draft, script);
  const engine = ask.engine === null ? undefined : engineOf(state, ask.engine);
  if (draft.type === "recordRunUp" && engine) return runUpFigure(state, engine, draft.item, script);
  if (draft.type !== "reading") return null;
  return gaugeFigure(state, engine, draft.gauge, now, script);
}

function ripeAt(state: SessionState, ask: Ask, chosen: Choice, script: Script): number {
  const engine = ask.engine === null ? undefined : engineOf(state, ask.engine);
  if (!engine) return 0;
  const life = plain(engine.life);
  if (ask.say === "cranking") return crankEnds(engine, script).at;
  if (ask.say === "readyToStart" && life.is === "shutDown") {
    return life.since + (AFTER_SHUT_DOWN * 1000) / script.pace;
  }
  if (chosen.draft.type !== "reading") return 0;
  const last = engine.readings[chosen.draft.gauge];
  const seconds = chosen.draft.gauge === "oilPressure" ? LOOK_AGAIN.oilPressure : LOOK_AGAIN.other;
  const first = last === undefined || (life.is === "caught" && last.at < life.since);
  return first ? 0 : last.at + (seconds * 1000) / script.pace;
}

/** Adds the cart's name to ground power signals. */
function withCart(action: Action, script: Script): Action {
  const names =
    action.type === "send" && (action.kind === "connectPower" || action.kind === "powerConnected");
  return names ? { ...action, note: `Cart ${script.cart}` } : action;
}

/** A planned move and its time. */
export interface Intent {
  key: string;
  at: number;
}

/** Returns the intent after another check: the same while the move is the same, else a new one. */
export function intend(intent: Intent | null, move: Move | null, now: number): Intent | null {
  if (!move) return null;
  if (intent?.key === move.key) return { key: move.key, at: Math.max(intent.at, move.notBefore) };
  return { key: move.key, at: Math.max(now + move.pauseMs, move.notBefore) };
}
