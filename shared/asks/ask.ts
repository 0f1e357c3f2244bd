import type { Action, RunUpItem } from "../protocol/commands.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { LightningAct } from "../protocol/lightningActs.ts";
import type { Post } from "../protocol/posts.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";
import type { SignalKind } from "../protocol/signals.ts";
import type { VoidReason } from "../session/state.ts";
import type { AskSay } from "./askSay.ts";
import type { ChoiceWord } from "./choiceWord.ts";

/** An entry that the answer needs before it can be sent: the engine's number again, or a figure. */
export type Need =
  | { is: "engine" }
  | { is: "figure"; field: "volts" | "pressure" | "reading"; unit: Unit }
  /** A figure that somebody forecasts, and where the forecast is from. */
  | { is: "forecast"; unit: Unit }
  | { is: "reason" }
  /** The person's own words: what a defect is, or why it is closed. */
  | { is: "words"; field: "words" | "reason" }
  | { is: "engineAndReason" }
  /** The aircraft at which a supervisor of several stands. None is marked beforehand. */
  | { is: "standsAt"; among: string[] }
  | { is: "blades"; atLeast: number }
  | { is: "weather" };

/** The server's confirmation that a person entered their PIN for this command. It does not contain the PIN. */
export interface Confirmed {
  /** The command's id. */
  command: string;
  permit: string;
}

/** The person's entries. */
export interface Given {
  engine?: number;
  figure?: Quantity;
  reason?: string;
  standsAt?: string;
  /** Sent beside the action, never in it. */
  confirmed?: Confirmed;
  blades?: { blades: number; resistance: boolean };
  weather?: Omit<Extract<Action, { type: "recordWeather" }>, "type">;
}

type ReadingDraft = Omit<Extract<Action, { type: "reading" }>, "reading">;
type BladesDraft = Omit<Extract<Action, { type: "countBlades" }>, "blades" | "resistance">;
type RunUpDraft = Omit<Extract<Action, { type: "recordRunUp" }>, "reading">;
type DefectDraft = Omit<Extract<Action, { type: "writeDefect" }>, "words">;
type CloseDraft = Omit<Extract<Action, { type: "closeDefect" }>, "reason">;
type Draft = Action | DefectDraft | CloseDraft | ReadingDraft | BladesDraft | RunUpDraft;

/** One action that a person can take, apart from its label. */
export interface Offer {
  tone: "yes" | "no" | "plain";
  draft: Draft;
  need: Need | null;
}

/** One answer that the person can give. */
export interface Choice extends Offer {
  word: ChoiceWord;
}

/** The subject of a sentence besides the engine. */
export type Detail =
  | { is: "condition"; condition: ConditionId }
  /** Every condition that is not met. */
  | { is: "unmet"; conditions: ConditionId[] }
  /** A gauge, by the name in its type. */
  | { is: "gauge"; name: string }
  /** A figure to be set. */
  | { is: "figure"; figure: Quantity }
  | { is: "runUpItem"; item: RunUpItem }
  /** A check, a drill or its step, in the words of the type's author. */
  | { is: "ofType"; words: string }
  | { is: "person"; name: string }
  | { is: "signal"; kind: SignalKind; engine: number | null }
  | { is: "posts"; posts: Post[] }
  /** A reason in the words of whoever gave it. */
  | { is: "reason"; words: string }
  /** The act that the type asks of the post while lightning stops work. */
  | { is: "lightning"; act: LightningAct }
  /** The reason why a clearance ended. */
  | ({ is: "voided" } & VoidReason)
  /** A defect in the words of whoever wrote it. */
  | { is: "defect"; words: string };

/** One thing asked of a post now. */
export interface Ask {
  /** Stays the same while the same thing is asked. */
  key: string;
  say: AskSay;
  /** 0 danger, 1 alert, 2 in the start itself, 3 service and checks, 4 can wait. */
  weight: 0 | 1 | 2 | 3 | 4;
  engine: number | null;
  signal: number | null;
  /** The post that asks, if one does. */
  from: string | null;
  since: number | null;
  /** Server time of the limit, null for none. */
  dueAt: number | null;
  detail: Detail | null;
  choices: Choice[];
}

export function ask(over: Partial<Ask> & Pick<Ask, "key" | "say" | "weight">): Ask {
  return {
    engine: null,
    signal: null,
    from: null,
    since: null,
    dueAt: null,
    detail: null,
    choices: [],
    ...over,
  };
}

export function offer(tone: Offer["tone"], draft: Draft, need: Need | null = null): Offer {
  return { tone, draft, need };
}

export function choice(
  word: ChoiceWord,
  tone: Offer["tone"],
  draft: Draft,
  need: Need | null = null,
): Choice {
  return { word, ...offer(tone, draft, need) };
}

/** Returns the action of an offer with the person's entries; null while the need is not met. */
export function fill(chosen: Offer, given: Given): Action | null {
  const { draft, need } = chosen;
  if (need === null) return draft.type === "reading" && !("reading" in draft) ? null : (draft as Action);
  switch (need.is) {
    case "engine":
      return given.engine === undefined ? null : ({ ...draft, engine: given.engine } as Action);
    case "figure":
      return given.figure === undefined ? null : ({ ...draft, [need.field]: given.figure } as Action);
    case "forecast":
      if (given.figure === undefined || given.reason === undefined) return null;
      return { ...draft, reading: given.figure, note: given.reason } as Action;
    case "reason":
      return given.reason === undefined ? null : ({ ...draft, note: given.reason } as Action);
    case "words":
      return given.reason === undefined ? null : ({ ...draft, [need.field]: given.reason } as Action);
    case "engineAndReason":
      if (given.engine === undefined || given.reason === undefined) return null;
      return { ...draft, engine: given.engine, reason: given.reason } as Action;
    case "standsAt":
      return given.standsAt === undefined ? null : ({ ...draft, standsAt: given.standsAt } as Action);
    case "blades":
      return given.blades === undefined ? null : ({ ...draft, ...given.blades } as Action);
    case "weather":
      return given.weather === undefined ? null : { ...given.weather, type: "recordWeather" };
  }
}
