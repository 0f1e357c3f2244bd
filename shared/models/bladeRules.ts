import { onceFor } from "../derived/onceFor.ts";
import type { BladeCountRules } from "../types/blades.ts";
import type { BladeRule, Turn } from "./bladeCount.ts";

interface Count {
  rule: BladeRule;
  holdsMs: number;
}

/** Returns the type's rule in the one form of the model, and how long a finished count holds, milliseconds. */
export const bladeRuleOf: (rules: BladeCountRules) => Count = onceFor(countOf);

function countOf(rules: BladeCountRules): Count {
  if ("cases" in rules) {
    return {
      rule: { method: rules.method, cases: rules.cases.map(withoutAbsent) },
      holdsMs: rules.holds.value * 1000,
    };
  }
  const { dueAfter, blades } = rules;
  return {
    rule: { method: "either", cases: [{ idle: { from: dueAfter }, turn: { blades: blades.value } }] },
    holdsMs: dueAfter.value * 1000,
  };
}

type Case = Extract<BladeCountRules, { cases: unknown }>["cases"][number];

/** Drops fields that are undefined: the schema allows them to be present, the model does not. */
function withoutAbsent({ idle, air, turn, bouts }: Case): BladeRule["cases"][number] {
  return {
    idle,
    ...(air === undefined ? {} : { air }),
    turn: turnOf(turn),
    ...(bouts === undefined ? {} : { bouts }),
  };
}

function turnOf(turn: Case["turn"]): Turn {
  const upTo = turn.upTo === undefined ? {} : { upTo: turn.upTo };
  return "blades" in turn ? { blades: turn.blades, ...upTo } : { revolutions: turn.revolutions, ...upTo };
}

/** Returns the rule for an engine whose last attempt failed: what the type asks then is due whatever the time stood. */
export function bladeRuleAfterFailed(rules: BladeCountRules): BladeRule {
  const { rule } = bladeRuleOf(rules);
  if (!rules.afterFailed) return rule;
  return { ...rule, cases: [...rule.cases, { idle: "always", turn: turnOf(rules.afterFailed.turn) }] };
}

/** Returns the standing times after which the rule may ask for more than before, milliseconds. */
export function bladeThresholdsMs(rule: BladeRule): number[] {
  const MS = { s: 1000, min: 60_000, h: 3_600_000 } as const;
  return rule.cases.flatMap(({ idle }) => {
    if (idle === "always") return [];
    const limit = "over" in idle ? idle.over : idle.from;
    const ms = limit.value * (MS[limit.unit as keyof typeof MS] ?? Number.NaN);
    return ["over" in idle ? ms + 1 : ms];
  });
}
