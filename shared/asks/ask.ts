import type { Action } from "../protocol/commands.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";

/** What a person must put in before the answer can go: the engine's number entered again, or a figure read. */
export type Need =
  | { is: "engine" }
  | { is: "figure"; field: "volts" | "pressure" | "reading"; unit: Unit }
  | { is: "reason" }
  | { is: "engineAndReason" }
  | { is: "blades"; atLeast: number }
  | { is: "weather" };

/** A person entered their PIN for this command, says the server. The PIN itself goes no further. */
export interface Confirmed {
  /** The command's id. */
  command: string;
  permit: string;
}

/** What the person put in. */
export interface Given {
  engine?: number;
  figure?: Quantity;
  reason?: string;
  /** Sent beside the action, never in it. */
  confirmed?: Confirmed;
  blades?: { blades: number; resistance: boolean };
  weather?: Omit<Extract<Action, { type: "recordWeather" }>, "type">;
}

type ReadingDraft = Omit<Extract<Action, { type: "reading" }>, "reading">;
type BladesDraft = Omit<Extract<Action, { type: "countBlades" }>, "blades" | "resistance">;
type RunUpDraft = Omit<Extract<Action, { type: "recordRunUp" }>, "reading">;
type Draft = Action | ReadingDraft | BladesDraft | RunUpDraft;

/** One thing the person can answer with. `word` is a key of words/choices. */
export interface Choice {
  word: string;
  tone: "yes" | "no" | "plain";
  draft: Draft;
  need: Need | null;
}

/** One thing asked of a post now. `say` is a key of words/asks. */
export interface Ask {
  /** Stable while the same thing is asked. */
  key: string;
  say: string;
  /** 0 danger, 1 alert, 2 in the start itself, 3 service and checks, 4 can wait. */
  weight: 0 | 1 | 2 | 3 | 4;
  engine: number | null;
  signal: number | null;
  /** Who asks, when somebody does. */
  from: string | null;
  since: number | null;
  /** Server time of the limit, null for none. */
  dueAt: number | null;
  /** Detail for the words: a check's text, a gauge, an alert's kind. */
  detail: string | null;
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

export function choice(word: string, tone: Choice["tone"], draft: Draft, need: Need | null = null): Choice {
  return { word, tone, draft, need };
}

/** The action a choice stands for, with what the person put in. Null while the need is not met. */
export function fill(chosen: Choice, given: Given): Action | null {
  const { draft, need } = chosen;
  if (need === null) return draft.type === "reading" && !("reading" in draft) ? null : (draft as Action);
  switch (need.is) {
    case "engine":
      return given.engine === undefined ? null : ({ ...draft, engine: given.engine } as Action);
    case "figure":
      return given.figure === undefined ? null : ({ ...draft, [need.field]: given.figure } as Action);
    case "reason":
      return given.reason === undefined ? null : ({ ...draft, note: given.reason } as Action);
    case "engineAndReason":
      if (given.engine === undefined || given.reason === undefined) return null;
      return { ...draft, engine: given.engine, reason: given.reason } as Action;
    case "blades":
      return given.blades === undefined ? null : ({ ...draft, ...given.blades } as Action);
    case "weather":
      return given.weather === undefined ? null : { ...given.weather, type: "recordWeather" };
  }
}
