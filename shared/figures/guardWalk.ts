import { guardStation } from "../models/geometry/guardStation.ts";
import type { Point } from "../models/geometry/polygon.ts";
import { propellerOf } from "../models/geometry/propeller.ts";
import { shortestWalk } from "../models/geometry/walk.ts";
import type { Outcome } from "../models/outcome.ts";
import { inUnit } from "../models/units.ts";
import { closedBy } from "../session/orderAdvice.ts";
import { isTurning, type SessionState } from "../session/state.ts";
import { cautions, type Figure, ofType } from "./figure.ts";

/** Metres the guard walks to an engine past everything that turns, and whose arcs are walked around. */
export function guardWalkFigure(state: SessionState, engine: number): Figure | null {
  const rules = state.type.ramp?.guard;
  const at = state.guard?.engine ?? null;
  if (!rules || at === engine) return null;
  const turning = state.engines.filter((e) => isTurning(e.life) && e.n !== engine).map((e) => e.n);
  const closed = turning.flatMap((n) => closedBy(state.type, n));
  const base = {
    id: `guardWalk:${engine}`,
    words: "guardWalk",
    unit: "m" as const,
    inputs: [
      {
        name: "from",
        value: at === null ? "where the guard waits" : `number ${at}`,
        unit: null,
        source: state.guard ? `said by ${state.guard.name}` : "the type",
        at: state.guard?.at ?? null,
      },
      {
        name: "walks around",
        value: turning.length === 0 ? "nothing turns" : turning.map((n) => `number ${n}`).join(", "),
        unit: null,
        source: "engines that turn",
        at: null,
      },
      ofType("clear of the tip", rules.standOff),
      ofType("kept from turning discs", rules.arcMargin),
      ...(rules.stream ? [ofType("fastest stream walked in", rules.stream)] : []),
    ],
    equation: "least way over the corners of closed ground",
    source: "visibility graph (Lozano-Perez and Wesley 1979) and Dijkstra",
  };
  // A place that engine's own arc has closed since is left: only the others' ground is looked at there.
  const start: Outcome<Point> =
    at === null
      ? { ok: true, value: rules.waits }
      : stationOf(
          state,
          at,
          turning.filter((n) => n !== at),
        );
  const end = stationOf(state, engine, turning);
  if (!start.ok || !end.ok) {
    return {
      ...base,
      value: null,
      verdict: "bad",
      ...cautions("There is no clear place for the guard: stop an engine first."),
    };
  }
  const walk = shortestWalk(start.value, end.value, closed);
  if (!walk.ok)
    return { ...base, value: null, verdict: "bad", ...cautions(`${walk.why}: stop an engine first.`) };
  return {
    ...base,
    value: walk.value.length,
    verdict: "none",
    ...cautions(
      walk.value.points.length > 2 && "The straight way is closed: walk around.",
      "By the type's plan: what stands on the ramp is not in it.",
    ),
  };
}

function stationOf(state: SessionState, n: number, turning: readonly number[]): Outcome<Point> {
  const propeller = propellerOf(state.type, n);
  const rules = state.type.ramp?.guard;
  if (!propeller || !rules) return { ok: false, why: "no rule" };
  const closed = turning.flatMap((k) => closedBy(state.type, k));
  return guardStation(propeller, closed, {
    standOff: inUnit(rules.standOff, "m"),
    ahead: inUnit(rules.ahead, "m"),
    aheadMost: inUnit(rules.aheadMost, "m"),
  });
}
