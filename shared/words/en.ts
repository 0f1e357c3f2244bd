import type { Ask } from "../asks/ask.ts";
import type { ConditionReport } from "../conditions/condition.ts";
import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import type { Post } from "../protocol/posts.ts";
import type { Refusal } from "../protocol/refusals.ts";
import type { FirePlace, SignalKind } from "../protocol/signals.ts";
import type { Stage } from "../protocol/stages.ts";
import type { EngineLife } from "../session/state.ts";
import { ASK_WORDS, CHOICE_WORDS, IDLE_WORDS } from "./asks.ts";
import { CONDITION_WORDS } from "./conditions.ts";
import { foundWords } from "./foundFigure.ts";
import { REFUSAL_WORDS } from "./refusals.ts";
import { runUpFaultWords } from "./runUp.ts";
import { SIGNAL_WORDS } from "./signals.ts";
import { FIRE_PLACE_WORDS, LIFE_WORDS, POST_WORDS, STAGE_WORDS, VOID_WORDS } from "./states.ts";

/** Puts values in a sentence; an empty value takes its place away. */
function put(text: string, values: Record<string, string | number | null | undefined>): string {
  return text
    .replace(/\{(\w)\}/g, (_, key: string) => String(values[key] ?? ""))
    .replace(/\s+([.,:])/g, "$1")
    .replace(/:\.?$/, ".")
    .trim();
}

const posts = (list: readonly Post[] | undefined) => (list ?? []).map((p) => POST_WORDS[p]).join(", ");

/** Everything the session says, in English. A second language gives the same functions. */
export const say = {
  ask(ask: Ask): string {
    const bare = ask.engine === null ? ASK_WORDS[`${ask.say}.plain`] : undefined;
    const text = bare ?? ASK_WORDS[ask.say] ?? ask.say;
    const detail = CONDITION_WORDS[ask.detail as ConditionReport["id"]]?.name ?? ask.detail;
    return put(text, { n: ask.engine, d: detail ?? ask.from });
  },
  idle: (post: Post): string => IDLE_WORDS[post] ?? "",
  choice: (word: string): string => CHOICE_WORDS[word] ?? (word.startsWith("advance.") ? "Go on" : word),
  signal(kind: SignalKind, engine: number | null): string {
    const words = SIGNAL_WORDS[kind];
    return engine === null ? words.plain : put(words.engine, { n: engine });
  },
  /** One condition as it was found, e.g. "Fire guard is at number 2". */
  condition(report: ConditionReport, units: UnitChoice = AS_READ): string {
    const f =
      report.id === "postsHeld" && report.found
        ? POST_WORDS[report.found as Post]
        : foundWords(report.found, units);
    const words = CONDITION_WORDS[report.id];
    return report.is === "overridden"
      ? `${words.name}: set aside by two people`
      : put(words[report.is], { f });
  },
  conditionName: (id: ConditionReport["id"]): string => CONDITION_WORDS[id].name,
  refusal(refusal: Refusal, units: UnitChoice = AS_READ): string {
    const found =
      LIFE_WORDS[refusal.found as EngineLife["is"]]?.toLowerCase() ?? foundWords(refusal.found, units);
    const said = put(REFUSAL_WORDS[refusal.reason], { n: refusal.engine, f: found, p: posts(refusal.posts) });
    const unmet = (refusal.unmet ?? []).map((u) => `${say.condition(u, units)} (${posts(u.owners)}).`);
    const missing = (refusal.missing ?? []).map((m) => `${say.missing(m)}.`);
    return [said, ...unmet, ...missing].join(" ");
  },
  /** A stage requirement's code in words. */
  missing(code: string): string {
    const [kind, a, b] = code.split(":");
    switch (kind) {
      case "post":
        return `Nobody holds ${POST_WORDS[a as Post]}`;
      case "briefed":
        return `${POST_WORDS[a as Post]} has not confirmed the brief`;
      case "check":
        return `Check not done or not good: ${a}`;
      case "condition":
        return `${CONDITION_WORDS[a as ConditionReport["id"]].name}: not so`;
      case "blades":
        return `Blades of number ${a} not counted`;
      case "handling":
        return `Somebody is at the propeller of number ${a}`;
      case "engine":
        return `Number ${a} is not stable`;
      case "gate":
        return `Number ${a} has not reached its ${b}`;
      case "runUp": {
        const [, engine = "0", item = "", fault = ""] = code.split(":");
        return runUpFaultWords(engine, item, fault);
      }
      case "powerOff":
        return "Ground power is still on";
      case "chocksOut":
        return "Chocks are not out";
      default:
        return "All clear has not been answered";
    }
  },
  stage: (stage: Stage): string => STAGE_WORDS[stage],
  life: (life: EngineLife): string => LIFE_WORDS[life.is],
  post: (post: Post | null): string => (post === null ? "Observer" : POST_WORDS[post]),
  alert: (kind: string, engine: number | null): string =>
    put(ASK_WORDS[`alert.${kind}`] ?? kind, { n: engine }),
  firePlace: (place: FirePlace): string => FIRE_PLACE_WORDS[place],
  overrideEnd: (why: "late" | "epoch" | "used" | "stageLeft"): string =>
    ({
      late: "no second person in time",
      epoch: "a stop, a change of post or a restart came between",
      used: "used",
      stageLeft: "the session left the starting stage",
    })[why],
  exceeded: (limit: "starterTime" | "oilFirst" | "oilNormal"): string =>
    ({ starterTime: "starter", oilFirst: "first oil pressure", oilNormal: "normal oil pressure" })[limit],
  voidCause: (cause: string): string => VOID_WORDS[cause] ?? cause,
};
