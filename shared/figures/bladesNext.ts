import { isTurning } from "../engine/life.ts";
import { bladeRuleOf, bladeThresholdsMs } from "../models/bladeRules.ts";
import { bladesDueAt } from "../propeller/bladesDue.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { cautions, type Figure, ofTypeData } from "./figure.ts";
import { airInput } from "./temperature.ts";

/**
 * Returns the blades that a stopped engine of a return needs before its next start, from when on, by the present air;
 * null in a start, while it turns, and where nobody knows when it ran.
 */
export function bladesNextFigure(state: SessionState, n: number): Figure | null {
  const engine = engineOf(state, n);
  if (!state.returning || !engine || engine.lastRanAt === null || isTurning(engine.life)) return null;
  const stopped = engine.lastRanAt;
  const rules = state.type.bladeCount;
  const thresholds = [...new Set([0, ...bladeThresholdsMs(bladeRuleOf(rules).rule)])].sort((a, b) => a - b);
  const steps = thresholds.map((ms) => {
    const due = bladesDueAt(state, engine, stopped + ms);
    return {
      ms,
      blades: due.ok ? (due.value.due ? due.value.blades : 0) : null,
      why: due.ok ? null : due.why,
    };
  });
  const changes = steps.filter((s, i) => s.blades !== (steps[i - 1]?.blades ?? 0));
  const first = changes.find((s) => s.blades !== 0);
  const sources = "cases" in rules ? rules.cases.map((c) => c.source) : [rules.blades.source];
  return {
    id: `bladesNext:${n}`,
    words: first ? "bladesNext" : "bladesNext.none",
    value: first ? first.blades : 0,
    unit: "count",
    verdict: first && first.blades === null ? "unknown" : "none",
    ...(first && { detail: `from ${minutes(first.ms)} min after it stopped` }),
    inputs: [
      { name: "stopped", value: "since then", unit: null, source: "the record", at: stopped },
      airInput(state),
      ...changes.map(({ ms, blades }) => ({
        name: `blades from ${minutes(ms)} min on`,
        value: blades,
        unit: "count" as const,
        source: "the type's rule",
        at: null,
      })),
      ...sources.map((s, i) => ofTypeData(`rule ${i + 1}`, "see source", s)),
    ],
    equation: "of the cases that apply by time stood and air, the one that asks most",
    source: "the type's rule; FAA-H-8083-30 ch. 11 on hydraulic lock",
    ...cautions("By the present air: a colder night may ask for more.", first?.why),
  };
}

const minutes = (ms: number): number => Math.floor(ms / 60_000);
