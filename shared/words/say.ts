import type { Ask, Detail } from "../asks/ask.ts";
import { askedKind, type OtherSay } from "../asks/askSay.ts";
import type { ChoiceWord } from "../asks/choiceWord.ts";
import { WAS_A_SLIP, WORKED_THROUGH } from "../drills/outcome.ts";
import type { EngineLife } from "../engine/life.ts";
import type { Position } from "../models/facing.ts";
import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import { faultOf, partUnit, type ReportFault } from "../models/weather/reportFault.ts";
import { type Requirement, readRequirement } from "../plan/requirement.ts";
import type { AlertKind } from "../protocol/alerts.ts";
import type { RunUpItem } from "../protocol/commands.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { VoidCause } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { Answer, FirePlace, SignalKind } from "../protocol/signals.ts";
import type { Stage } from "../protocol/stages.ts";
import type { RunUpFault } from "../runUp/fault.ts";
import { gaugeName } from "../types/gaugeName.ts";
import type { AircraftType } from "../types/schema.ts";
import type { Catalogue } from "./en/catalogue.ts";
import { foundWords } from "./foundFigure.ts";
import { writtenBoth } from "./quantity.ts";

/** Every sentence of a session, in one language. */
export type Say = ReturnType<typeof sayIn>;

/** The form that `evidence/pseudonyms.ts` gives an erased person. */
const ERASED = /^Erased person ([0-9a-f]{6})$/;

/** Returns a sentence with values in their places; an empty value removes its place. */
function put(text: string, values: Record<string, string | number | null | undefined>): string {
  return text
    .replace(/\{(\w)\}/g, (_, key: string) => String(values[key] ?? ""))
    .replace(/\s+([.,:])/g, "$1")
    .replace(/:\.?$/, ".")
    .replace(/:\./g, ".")
    .trim();
}

/** Returns the word of a table for a key from outside; undefined for none. */
function word(table: Readonly<Record<string, string>>, key: string | null | undefined): string | undefined {
  return key != null && Object.hasOwn(table, key) ? table[key] : undefined;
}

/** Returns a sentence without its capital, for use inside another. */
const inSentence = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);

export function sayIn(words: Catalogue) {
  const posts = (list: readonly Post[] | undefined) => (list ?? []).map((p) => words.posts[p]).join(", ");
  /** Returns a finding of the core in words. Findings are codes, figures or names; several are joined by commas. */
  const found = (text: string | undefined, units: UnitChoice) =>
    foundWords(text, units)?.split(", ").map(oneFound).join(", ");
  const oneFound = (key: string) =>
    (word(words.lives, key) ?? word(words.choices, key))?.toLowerCase() ??
    word(words.posts, key) ??
    word(words.found, key) ??
    words.conditions[key as ConditionId]?.name ??
    key.replace(
      /\b(to|of|gust|from behind|across)\b/g,
      (joint) => words.joints[joint as keyof Catalogue["joints"]],
    );
  const detail = (of: Detail): string => {
    switch (of.is) {
      case "condition":
        return words.conditions[of.condition].name;
      case "unmet":
        return of.conditions.map((id) => words.conditions[id].name).join(", ");
      case "runUpItem":
        return words.runUpItems[of.item];
      case "signal":
        return say.signal(of.kind, of.engine);
      case "gauge":
      case "person":
        return of.name;
      case "ofType":
      case "defect":
      case "reason":
        return of.words;
      case "posts":
        return posts(of.posts).toLowerCase();
      case "lightning":
        return words.lightningActs[of.act];
      case "voided":
        return of.unmet.length === 0
          ? words.voids[of.cause]
          : of.unmet.map((u) => inSentence(say.condition(u))).join(", ");
    }
  };
  const sentenceOf = ({ say: key, engine }: Ask): string => {
    const kind = askedKind(key);
    if (kind === null) return words.asks[key as OtherSay];
    const { asks, asksPlain = asks }: { asks: string; asksPlain?: string } = words.signals[kind];
    return engine === null ? asksPlain : asks;
  };
  const missingCode = (code: string, type: AircraftType | null): string => {
    const requirement = readRequirement(code);
    return requirement ? say.missing(requirement, type) : words.missing.unknown(code);
  };
  const either = new Intl.ListFormat(words.language, { type: "disjunction" });
  const both = new Intl.ListFormat(words.language, { type: "conjunction" });
  const say = {
    language: words.language,
    caution: words.caution,
    either: (list: readonly string[]): string => either.format(list),
    both: (list: readonly string[]): string => both.format(list),
    ask(ask: Ask): string {
      return put(sentenceOf(ask), { n: ask.engine, d: ask.detail && detail(ask.detail) });
    },
    idle: (post: Post): string => words.idle[post],
    /** Returns the label of a key; the key that stops an engine names it. */
    choice: (word: ChoiceWord, engine: number | null = null): string =>
      put(words.choices[word], { n: engine ?? "" }).trim(),
    answer: (answer: Answer): string => words.choices[answer === "done" ? "stopped" : answer],
    signal(kind: SignalKind, engine: number | null): string {
      const { plain, engine: named } = words.signals[kind];
      return engine === null ? plain : put(named, { n: engine });
    },
    /** Returns one condition as it was found, e.g. "Fire guard is at number 2". */
    condition(report: ConditionReport, units: UnitChoice = AS_READ): string {
      const said = words.conditions[report.id];
      return report.is === "overridden"
        ? words.setAside(said.name)
        : put(said[report.is], { f: found(report.found, units) });
    },
    conditionName: (id: ConditionId): string => words.conditions[id].name,
    /** @param type the type whose names for checks and gauges replace their ids */
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
      const missing = (refusal.missing ?? []).map((m) => `${missingCode(m, type)}.`);
      return [said, ...unmet, ...missing].join(" ");
    },
    reportPart: (part: keyof Catalogue["reportParts"]): string => words.reportParts[part],
    reportSwings: (from: number, to: number): string => words.reportThunder.swings(from, to),
    reportThunder: words.reportThunder.told,
    /** Returns the reason why a weather report is not used, and what to do. */
    reportFault(fault: ReportFault, units: UnitChoice): string {
      const { unreadable, old, impossible, twice } = words.reportFaults;
      if (fault.is === "unreadable") return unreadable;
      if (fault.is === "twice") return twice(words.reportParts[fault.part]);
      const minutes = (ms: number) => Math.floor(ms / 60_000);
      if (fault.is === "old") return old(minutes(fault.age), minutes(fault.most));
      const { part, value } = fault;
      const unit = partUnit(part);
      return impossible(
        words.reportParts[part],
        unit === null ? `${value}°` : writtenBoth({ value, unit }, units),
      );
    },
    /** @param type the type whose names for checks and gauges replace their ids */
    missing(requirement: Requirement, type: AircraftType | null = null): string {
      const { missing } = words;
      switch (requirement.is) {
        case "post":
        case "briefed":
          return missing[requirement.is](words.posts[requirement.post]);
        case "condition":
          return missing.condition(words.conditions[requirement.condition].name);
        case "card": {
          const { item } = requirement;
          return missing.card(type?.card?.find((i) => i.id === item)?.words ?? item);
        }
        case "check": {
          const { check } = requirement;
          return missing.check(type?.checks.find((k) => k.id === check)?.words ?? check);
        }
        case "blades":
        case "handling":
        case "engine":
        case "stopped":
        case "still":
        case "remark":
          return missing[requirement.is](String(requirement.engine));
        case "gate":
          return missing.gate(String(requirement.engine), gaugeName(type, requirement.gauge));
        case "runUp":
          return say.runUpFault(requirement.fault, type);
        case "powerOff":
        case "chocksOut":
        case "allClear":
        case "onStand":
        case "switchesOff":
          return missing[requirement.is];
      }
    },
    runUpItem: (item: RunUpItem): string => words.runUpItems[item],
    runUpFault({ engine, of, what }: RunUpFault, type: AircraftType | null): string {
      const item = "check" in of ? words.runUpChecks[of.check] : gaugeName(type, of.gauge);
      return words.runUp(`${item} ${words.runUpFaults[what]}`, engine === null ? null : String(engine));
    },
    stage: (stage: Stage): string => words.stages[stage],
    life: (life: EngineLife): string => words.lives[life.is],
    post: (post: Post | null): string => (post === null ? words.observer : words.posts[post]),
    /** Returns a person's name; for an erased person, the words that say so. */
    person: (name: string): string => {
      const [, signs] = ERASED.exec(name) ?? [];
      return signs === undefined ? name : put(words.erased, { d: signs });
    },
    alert: (kind: AlertKind, engine: number | null): string =>
      put(words.asks[`alert.${kind}`], { n: engine }),
    /** Returns an engine's place, never as a bare left or right: "port outboard", "centre". */
    stands: ({ side, span }: Position): string =>
      span === null ? words.sides[side] : `${words.sides[side]} ${words.spans[span]}`,
    firePlace: (place: FirePlace): string => words.firePlaces[place],
    /** Returns the outcome of a drill: the person's own words, that every step was worked, or that its fire was a slip. */
    drillOutcome: (outcome: string): string =>
      outcome === WORKED_THROUGH ? words.workedThrough : outcome === WAS_A_SLIP ? words.wasASlip : outcome,
    overrideEnd: (why: keyof Catalogue["overrideEnds"]): string => words.overrideEnds[why],
    exceeded: (limit: keyof Catalogue["limits"]): string => words.limits[limit],
    voidCause: (cause: VoidCause): string => words.voids[cause],
  };
  return say;
}
