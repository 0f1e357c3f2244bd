import { CONDITION_IDS, type ConditionId } from "../protocol/conditions.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import { CHECK_ITEMS, type RunUpCheck } from "../runUp/checkItems.ts";
import { RUN_UP_FAULTS, type RunUpFault } from "../runUp/fault.ts";

/** One thing that must be met before the session may leave its stage. */
export type Requirement =
  | { is: "post" | "briefed"; post: Post }
  | { is: "check"; check: string }
  /** An item of the card on which the release stands. */
  | { is: "card"; item: string }
  | { is: "condition"; condition: ConditionId }
  | { is: "blades" | "handling" | "engine" | "stopped" | "still" | "remark"; engine: number }
  | { is: "gate"; engine: number; gauge: string }
  | { is: "runUp"; fault: RunUpFault }
  | { is: "powerOff" | "chocksOut" | "allClear" | "onStand" | "switchesOff" };

/**
 * Returns the code of a requirement for a refusal: `post:cockpit`, `check:battery1`, `card:trim`, `condition:chocksIn`, `engine:3`,
 * `gate:3:oilTemp`, `runUp:<engine, or 0 for the aircraft>:<check or gauge>:<fault>`, `powerOff`.
 */
export function requirementCode(requirement: Requirement): string {
  switch (requirement.is) {
    case "post":
    case "briefed":
      return `${requirement.is}:${requirement.post}`;
    case "check":
      return `check:${requirement.check}`;
    case "card":
      return `card:${requirement.item}`;
    case "condition":
      return `condition:${requirement.condition}`;
    case "blades":
    case "handling":
    case "engine":
    case "stopped":
    case "still":
    case "remark":
      return `${requirement.is}:${requirement.engine}`;
    case "gate":
      return `gate:${requirement.engine}:${requirement.gauge}`;
    case "runUp": {
      const { engine, of, what } = requirement.fault;
      return `runUp:${engine ?? 0}:${"check" in of ? of.check : of.gauge}:${what}`;
    }
    case "powerOff":
    case "chocksOut":
    case "allClear":
    case "onStand":
    case "switchesOff":
      return requirement.is;
  }
}

/** Returns the requirement of a code in a refusal; null for a code of another version. */
export function readRequirement(code: string): Requirement | null {
  const [is = "", a = "", b = "", c = ""] = code.split(":");
  switch (is) {
    case "post":
    case "briefed": {
      const post = POSTS.find((p) => p === a);
      return post ? { is, post } : null;
    }
    case "check":
      return { is, check: a };
    case "card":
      return { is, item: a };
    case "condition": {
      const condition = CONDITION_IDS.find((id) => id === a);
      return condition ? { is, condition } : null;
    }
    case "blades":
    case "handling":
    case "engine":
    case "stopped":
    case "still":
    case "remark":
      return { is, engine: Number(a) };
    case "gate":
      return { is, engine: Number(a), gauge: b };
    case "runUp": {
      const what = RUN_UP_FAULTS.find((f) => f === c);
      const of = isRunUpCheck(b) ? { check: b } : { gauge: b };
      return what ? { is, fault: { engine: a === "0" ? null : Number(a), of, what } } : null;
    }
    case "powerOff":
    case "chocksOut":
    case "allClear":
    case "onStand":
    case "switchesOff":
      return { is };
    default:
      return null;
  }
}

function isRunUpCheck(text: string): text is RunUpCheck {
  return Object.hasOwn(CHECK_ITEMS, text);
}
