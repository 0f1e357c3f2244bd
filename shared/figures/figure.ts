import type { Quantity, Unit } from "../protocol/quantity.ts";
import type { Attribution } from "../session/attribution.ts";
import type { Limit, Source } from "../types/limit.ts";

/** One input of a figure. */
export interface FigureInput {
  name: string;
  value: number | string | null;
  unit: Unit | null;
  /** Its origin: a document of the type, or the person who read it. */
  source: string;
  /** Time of the reading, server milliseconds; null for a figure of the type, or one that nobody has read. */
  at: number | null;
  /** A difference of two readings: another unit converts it without the unit's zero. */
  difference?: true;
}

/**
 * `unknown`: an input is missing or the data cannot decide, which is never a verdict. `none`: there is no limit to
 * compare with.
 */
export type FigureVerdict = "good" | "caution" | "bad" | "unknown" | "none";

/** A figure shown to people, with its inputs and equation. */
export interface Figure {
  /** Stable within a session: the kind, and the engine if the figure belongs to one. */
  id: string;
  /** Key of words/figures.ts. */
  words: string;
  value: number | string | null;
  unit: Unit | null;
  verdict: FigureVerdict;
  /** A few words beside the value: its error, the engine it belongs to, or a comparison. */
  detail?: string;
  inputs: FigureInput[];
  equation: string;
  /** The source of the equation. */
  source: string;
  /** A warning for the reader, e.g. an assumption made or a missing input. */
  caution?: string;
}

/** A source of a type, or an entry of the house's own register. */
export type GivenSource = Pick<Source, "basis" | "text"> | { basis: "register"; text: string };

/** A figure with its unit and where it comes from. */
export type GivenLimit = Omit<Limit, "source"> & { source: GivenSource };

const BASIS: Readonly<Record<GivenSource["basis"], string>> = {
  register: "the house's register",
  published: "published",
  commonPractice: "common practice",
  fromMemory: "from memory",
  anotherType: "about another type",
  invented: "invented",
};

export function sourceWords({ basis, text }: GivenSource): string {
  const word = BASIS[basis];
  return text.toLowerCase().startsWith(word) ? text : `${word}: ${text}`;
}

/** Returns a limit of the type, or a figure of the register, as an input. */
export function ofType(name: string, limit: GivenLimit): FigureInput {
  return { name, value: limit.value, unit: limit.unit, source: sourceWords(limit.source), at: null };
}

/** Returns a plain number of the type, with its source, as an input. */
export function ofTypeData(
  name: string,
  value: number | string,
  source: GivenSource,
  unit: Unit | null = null,
): FigureInput {
  return { name, value, unit, source: sourceWords(source), at: null };
}

/** Returns a reading as an input; null means that nobody has read it. */
export function read(name: string, quantity: (Quantity & { at: number; name: string }) | null): FigureInput {
  if (!quantity) return notRead(name);
  return {
    name,
    value: quantity.value,
    unit: quantity.unit,
    source: `read by ${quantity.name || "the system"}`,
    at: quantity.at,
  };
}

/** Returns a reported figure as an input. */
export function said(name: string, quantity: Quantity, by: Attribution): FigureInput {
  return { name, value: quantity.value, unit: quantity.unit, source: `said by ${by.name}`, at: by.at };
}

export function notRead(name: string): FigureInput {
  return { name, value: null, unit: null, source: "nobody has read it", at: null };
}

/** Returns the given cautions as one text; an absent field when there is none. */
export function cautions(...texts: (string | null | false | undefined)[]): { caution?: string } {
  const held = texts.filter((t): t is string => typeof t === "string" && t !== "");
  return held.length === 0 ? {} : { caution: held.join(" ") };
}
