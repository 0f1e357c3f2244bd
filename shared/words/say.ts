import type { Ask } from "../asks/ask.ts";
import type { EngineLife } from "../engine/life.ts";
import type { Position } from "../models/facing.ts";
import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import { faultOf, partUnit, type ReportFault } from "../models/weather/reportFault.ts";
import type { RunUpItem } from "../protocol/commands.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { Post } from "../protocol/posts.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { FirePlace, SignalKind } from "../protocol/signals.ts";
import type { Stage } from "../protocol/stages.ts";
import type { AircraftType } from "../types/schema.ts";
import type { Catalogue } from "./en/catalogue.ts";
import { foundWords } from "./foundFigure.ts";
import { writtenBoth } from "./quantity.ts";

/** Everything a session says, in one language. */
export type Say = ReturnType<typeof sayIn>;

/** How `evidence/pseudonyms.ts` shows somebody whose name is known no longer. */
const ERASED = /^Erased person ([0-9a-f]{6})$/;

/** Puts values in a sentence; an empty value takes its place away. */
function put(text: string, values: Record<string, string | number | null | undefined>): string {
  return text
    .replace(/\{(\w)\}/g, (_, key: string) => String(values[key] ?? ""))
    .replace(/\s+([.,:])/g, "$1")
    .replace(/:\.?$/, ".")
    .trim();
}

/** A word of a table by a key that comes from elsewhere; undefined for none. */
function word(table: Readonly<Record<string, string>>, key: string | null | undefined): string | undefined {
  return key != null && Object.hasOwn(table, key) ? table[key] : undefined;
}

export function sayIn(words: Catalogue) {
  const posts = (list: readonly Post[] | undefined) => (list ?? []).map((p) => words.posts[p]).join(", ");
  /** Core findings are codes, figures or names, several behind commas. */
  const found = (text: string | undefined, units: UnitChoice) =>
    foundWords(text, units)?.split(", ").map(oneFound).join(", ");
  const oneFound = (key: string) =>
    (word(words.lives, key) ?? word(words.choices, key))?.toLowerCase() ??
    word(words.posts, key) ??
    word(words.found, key) ??
    words.conditions[key as ConditionId]?.name ??
    key.replace(/\b(to|of|gust)\b/g, (joint) => words.joints[joint as keyof Catalogue["joints"]]);
  const either = new Intl.ListFormat(words.language, { type: "disjunction" });
  const say = {
    language: words.language,
    caution: words.caution,
    either: (list: readonly string[]): string => either.format(list),
    ask(ask: Ask): string {
      const bare = ask.engine === null ? word(words.asks, `${ask.say}.plain`) : undefined;
      const text = bare ?? word(words.asks, ask.say) ?? ask.say;
      const detail =
        words.conditions[ask.detail as ConditionId]?.name ?? word(words.runUpItems, ask.detail) ?? ask.detail;
      return put(text, { n: ask.engine, d: detail ?? ask.from });
    },
    idle: (post: Post): string => words.idle[post],
    choice: (key: string): string =>
      key.startsWith("advance.") ? words.choices.advance : (word(words.choices, key) ?? key),
    signal(kind: SignalKind, engine: number | null): string {
      const { plain, engine: named } = words.signals[kind];
      return engine === null ? plain : put(named, { n: engine });
    },
    /** One condition as it was found, e.g. "Fire guard is at number 2". */
    condition(report: ConditionReport, units: UnitChoice = AS_READ): string {
      const said = words.conditions[report.id];
      return report.is === "overridden"
        ? words.setAside(said.name)
        : put(said[report.is], { f: found(report.found, units) });
    },
    conditionName: (id: ConditionId): string => words.conditions[id].name,
    /** @param type whose checks and gauges are named by their names instead of their ids */
    refusal(refusal: Refusal, units: UnitChoice = AS_READ, type: AircraftType | null = null): string {
      const said = put(words.refusals[refusal.reason], {
        n: refusal.engine,
        f:
          refusal.reason === "badReport"
            ? say.reportFault(faultOf(refusal.found ?? ""), units)
            : found(refusal.found, units),
        p: posts(refusal.posts),
      });
      const unmet = (refusal.unmet ?? []).map((u) => `${say.condition(u, units)} (${posts(u.owners)}).`);
      const missing = (refusal.missing ?? []).map((m) => `${say.missing(m, type)}.`);
      return [said, ...unmet, ...missing].join(" ");
    },
    reportPart: (part: keyof Catalogue["reportParts"]): string => words.reportParts[part],
    /** Why a weather report is not used, and what to do. */
    reportFault(fault: ReportFault, units: UnitChoice): string {
      const { unreadable, old, impossible } = words.reportFaults;
      if (fault.is === "unreadable") return unreadable;
      const minutes = (ms: number) => Math.floor(ms / 60_000);
      if (fault.is === "old") return old(minutes(fault.age), minutes(fault.most));
      const { part, value } = fault;
      const unit = partUnit(part);
      return impossible(
        words.reportParts[part],
        unit === null ? `${value}°` : writtenBoth({ value, unit }, units),
      );
    },
    /** A stage requirement's code in words. */
    missing(code: string, type: AircraftType | null = null): string {
      const [kind = "", a = "", b = "", c = ""] = code.split(":");
      const { missing } = words;
      switch (kind) {
        case "post":
        case "briefed":
          return missing[kind](words.posts[a as Post]);
        case "condition":
          return missing.condition(words.conditions[a as ConditionId].name);
        case "check":
          return missing.check(type?.checks.find((k) => k.id === a)?.words ?? a);
        case "blades":
        case "handling":
        case "engine":
          return missing[kind](a);
        case "gate":
          return missing.gate(a, type?.gauges.find((g) => g.id === b)?.name.toLowerCase() ?? b);
        case "runUp":
          return say.runUpFault(a, b, c);
        case "powerOff":
        case "chocksOut":
          return missing[kind];
        default:
          return missing.allClear;
      }
    },
    runUpItem: (item: RunUpItem): string => words.runUpItems[item],
    /** A fault of the run-up in words: engine 0 is the aircraft, `item` a check or a gauge's name. */
    runUpFault(engine: string, item: string, fault: string): string {
      const what = `${word(words.runUpChecks, item) ?? item} ${word(words.runUpFaults, fault) ?? fault}`;
      return words.runUp(what, engine === "0" ? null : engine);
    },
    stage: (stage: Stage): string => words.stages[stage],
    life: (life: EngineLife): string => words.lives[life.is],
    post: (post: Post | null): string => (post === null ? words.observer : words.posts[post]),
    /** A person's name; of somebody who was erased, that they were. */
    person: (name: string): string => {
      const [, signs] = ERASED.exec(name) ?? [];
      return signs === undefined ? name : put(words.erased, { d: signs });
    },
    alert: (kind: string, engine: number | null): string =>
      put(word(words.asks, `alert.${kind}`) ?? kind, { n: engine }),
    /** Where an engine stands, never as a bare left or right: "port outboard", "centre". */
    stands: ({ side, span }: Position): string =>
      span === null ? words.sides[side] : `${words.sides[side]} ${words.spans[span]}`,
    firePlace: (place: FirePlace): string => words.firePlaces[place],
    /** How a drill ended, where it is not in somebody's own words. */
    drillOutcome: (outcome: string): string => word(words.found, outcome) ?? outcome,
    overrideEnd: (why: keyof Catalogue["overrideEnds"]): string => words.overrideEnds[why],
    exceeded: (limit: keyof Catalogue["limits"]): string => words.limits[limit],
    voidCause: (cause: string): string => word(words.voids, cause) ?? cause,
  };
  return say;
}
