import { conditions } from "../words/en/conditions.ts";

/** The id of a condition: the key of its English words. `conditions/all.ts` does not compile without its definition. */
export type ConditionId = keyof typeof conditions;

export const CONDITION_IDS = Object.keys(conditions) as readonly ConditionId[];
