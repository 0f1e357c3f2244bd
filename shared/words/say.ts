import type { Ask, Detail } from "../asks/ask.ts";
import { askedKind, type OtherSay } from "../asks/askSay.ts";
import type { ChoiceWord } from "../asks/choiceWord.ts";
import type { EngineLife } from "../engine/life.ts";
import type { Position } from "../models/facing.ts";
import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import type { AlertKind } from "../protocol/alerts.ts";
import type { RunUpItem } from "../protocol/commands.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { VoidCause } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import type { Answer, FirePlace, SignalKind } from "../protocol/signals.ts";
import type { Stage } from "../protocol/stages.ts";
import type { Catalogue } from "./en/catalogue.ts";
import { foundWords } from "./foundFigure.ts";
import { written } from "./quantity.ts";

/** Every sentence of a session, in one language. */
export type Say = ReturnType<typeof sayIn>;

/** The form that `evidence/pseudonyms.ts` gives an erased person. */
const ERASED = /^Erased person ([0-9a-f]{6})$/;

/** Returns a sentence with values in their places; an empty value removes its place. */
export function put(text: string, values: Record<string, string | number | null | undefined>): string {
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
      case "figure":
        return written(of.figure);
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
    /** Returns a finding of the core in words: a code, a figure or a name, several joined by commas. */
    found,
    posts,
    /** Returns one condition as it was found, e.g. "Fire guard is at number 2". */
    condition(report: ConditionReport, units: UnitChoice = AS_READ): string {
      const said = words.conditions[report.id];
      return report.is === "overridden"
        ? words.setAside(said.name)
        : put(said[report.is], { f: found(report.found, units) });
    },
    conditionName: (id: ConditionId): string => words.conditions[id].name,
    runUpItem: (item: RunUpItem): string => words.runUpItems[item],
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
    /** Returns what a kind of alert says at any time: an ellipsis stands for the engine and for what differs. */
    anyAlert: (kind: AlertKind): string => put(words.asks[`alert.${kind}`], { n: "…", d: "…" }),
    /** Returns an engine's place, never as a bare left or right: "port outboard", "centre". */
    stands: ({ side, span }: Position): string =>
      span === null ? words.sides[side] : `${words.sides[side]} ${words.spans[span]}`,
    firePlace: (place: FirePlace): string => words.firePlaces[place],
    voidCause: (cause: VoidCause): string => words.voids[cause],
  };
  return say;
}
