import { isTurning } from "../engine/life.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accessoryWords } from "./accessoryWords.ts";
import type { Figure } from "./figure.ts";

/**
 * Returns the accessories that come alive with an engine that does not turn yet: those that no turning engine drives,
 * then those that another drives too. Null for an engine that turns or drives nothing.
 */
export function aliveFigure(state: SessionState, n: number): Figure | null {
  const engine = engineOf(state, n);
  const own = state.type.engines.find((e) => e.n === n)?.accessories ?? [];
  if (!engine || own.length === 0 || isTurning(engine.life)) return null;
  const turning = state.engines.filter((e) => isTurning(e.life)).map((e) => e.n);
  const driven = (m: number) => state.type.engines.find((e) => e.n === m)?.accessories ?? [];
  const before = new Set(turning.flatMap(driven));
  const first = own.filter((a) => !before.has(a));
  const shown = first.length > 0 ? first : own;
  return {
    id: `alive:${n}`,
    words: first.length > 0 ? "alive.first" : "alive.more",
    value: shown.map(accessoryWords).join(", "),
    unit: null,
    verdict: "none",
    inputs: [
      ...[...turning, n].map((m) => ({
        name: `driven by number ${m}`,
        value: driven(m).map(accessoryWords).join(", ") || null,
        unit: null,
        source: "the type",
        at: null,
      })),
    ],
    equation: "what this engine drives, less what engines that turn drive already",
    source: "the type's accessories",
  };
}
