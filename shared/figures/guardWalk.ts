import { guardWalk, turningBut } from "../guard/walk.ts";
import type { SessionState } from "../session/state.ts";
import { cautions, type Figure, ofType } from "./figure.ts";

/**
 * Returns the metres that the guard walks to an engine past everything that turns, and the engines whose arcs the walk
 * avoids.
 */
export function guardWalkFigure(state: SessionState, engine: number): Figure | null {
  const rules = state.type.ramp?.guard;
  const at = state.guard?.engine ?? null;
  if (!rules || at === engine) return null;
  const turning = turningBut(state, engine);
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
  const walk = guardWalk(state, engine);
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
