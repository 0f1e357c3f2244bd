import { isTurning } from "../engine/life.ts";
import type { Post } from "../protocol/posts.ts";
import { isOver, type SessionState } from "../session/state.ts";
import { nextToStop } from "../stopping/nextToStop.ts";
import { aboveFigures } from "./above.ts";
import { airFigures } from "./air.ts";
import { aliveFigure } from "./alive.ts";
import { bladesFigure } from "./blades.ts";
import { bladesNextFigure } from "./bladesNext.ts";
import { clearDistances } from "./blast.ts";
import { cableDrop } from "./cableDrop.ts";
import { coolDownFigure, stopOrderFigure, stopsWithFigure } from "./coolDown.ts";
import { expectedVolts, seenVolts } from "./crankingVolts.ts";
import type { Figure } from "./figure.ts";
import { generatorFigure } from "./generator.ts";
import { gravityFigures } from "./gravity.ts";
import { groundPowerFigure } from "./groundPower.ts";
import { guardWalkFigure } from "./guardWalk.ts";
import { idleFigure } from "./idle.ts";
import { lightningFigure } from "./lightning.ts";
import { neighbourFigures, standCaseOf } from "./neighbours.ts";
import { oilTimers, oilViscosity, preheatFigure } from "./oil.ts";
import { oilDilutionFigure } from "./oilDilution.ts";
import { orderFigure } from "./order.ts";
import { primeFigure } from "./prime.ts";
import { featherFigure, magnetoFigure, manifoldFigure, releaseFigure } from "./runUp.ts";
import { attemptsFigure, starterHeat, starterRest } from "./starter.ts";
import { startsLeftFigure } from "./startsLeft.ts";
import { voltTraceFigure } from "./voltTrace.ts";
import { warmUpFigure } from "./warmUp.ts";

const given = (figures: (Figure | null)[]): Figure[] => figures.filter((f) => f !== null);

/** Returns every figure of one engine now. A figure for which the type has no data is left out. */
export function figuresOfEngine(state: SessionState, engine: number, now: number): Figure[] {
  return given([
    bladesFigure(state, engine, now),
    preheatFigure(state, engine, now),
    oilViscosity(state, engine),
    primeFigure(state, engine, now),
    aliveFigure(state, engine),
    expectedVolts(state, engine),
    seenVolts(state, engine),
    starterRest(state, engine, now),
    starterHeat(state, engine, now),
    attemptsFigure(state, engine),
    ...oilTimers(state, engine, now),
    guardWalkFigure(state, engine),
    ...aboveFigures(state, engine, now),
    idleFigure(state, engine, now),
    generatorFigure(state, engine),
    coolDownFigure(state, engine, now),
    stopsWithFigure(state, engine),
    bladesNextFigure(state, engine),
    magnetoFigure(state, engine),
    featherFigure(state, engine),
  ]);
}

/**
 * Returns every figure of the aircraft as a whole, except the noise dose of each person: `noise.ts` works that out from
 * the events.
 */
export function figuresOfAircraft(state: SessionState, now: number): Figure[] {
  return given([
    groundPowerFigure(state),
    voltTraceFigure(state, now),
    cableDrop(state),
    startsLeftFigure(state),
    ...gravityFigures(state),
    warmUpFigure(state, now),
    manifoldFigure(state),
    releaseFigure(state),
    orderFigure(state),
    stopOrderFigure(state),
    oilDilutionFigure(state),
    ...airFigures(state),
    ...neighbourFigures(standCaseOf(state)),
    ...clearDistances(state),
  ]);
}

/** Returns what the cockpit sees of each engine that turns: figures above their most, and the steps of the idle. */
function inTheCockpit(state: SessionState, now: number): (Figure | null)[] {
  return state.engines
    .filter((e) => isTurning(e.life))
    .flatMap(({ n }) => [...aboveFigures(state, n, now), idleFigure(state, n, now)]);
}

/**
 * Returns the figures that a post sees at this stage without asking: the order until every engine runs, then the
 * warm-up; in a return, the order of stopping and the cool-down of the next engine; the steps of the idle and what is above its most, in the cockpit; lightning once a flash was seen; and ground power's volts at the posts that work it and receive it.
 */
export function figuresNow(state: SessionState, post: Post | null, now: number): Figure[] {
  if (isOver(state)) return [];
  const starting = state.stage !== "warmUp" && state.stage !== "release";
  const next = nextToStop(state);
  const powered = post === "cockpit" || post === "groundPower";
  return given([
    state.flashes?.length || state.fieldFlashes?.length ? lightningFigure(state, now) : null,
    ...neighbourFigures(standCaseOf(state)).filter((f) => f.verdict === "bad"),
    starting ? orderFigure(state) : null,
    stopOrderFigure(state),
    next === null ? null : coolDownFigure(state, next.n, now),
    warmUpFigure(state, now),
    ...(post === "cockpit" ? inTheCockpit(state, now) : []),
    post === "cockpit" ? oilDilutionFigure(state) : null,
    ...(powered ? [groundPowerFigure(state), voltTraceFigure(state, now)] : []),
  ]);
}
