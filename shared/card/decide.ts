import type { Action } from "../protocol/commands.ts";
import type { FactOf } from "../protocol/events.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import type { CardItem } from "../types/card.ts";
import { caughtAt } from "./caughtAt.ts";
import { boundsOf, withinBounds } from "./judge.ts";
import { cardLowers } from "./lowers.ts";
import { isFor, ofOneEngine } from "./places.ts";

type AnswerCard = Extract<Action, { type: "answerCard" }>;
type CardAction = AnswerCard | Extract<Action, { type: "readCard" }>;

/**
 * Decides an item of the card that was read out or answered. Its post answers it, and so does a second person who may
 * hold that post and holds none here. In any order, and again: the newest answer counts.
 */
export function decideCard(state: SessionState, action: CardAction, context: Context): Verdict {
  const item = state.type.card?.find((i) => i.id === action.item);
  if (!item) return refuse("noSuchCheck", { found: (state.type.card ?? []).map((i) => i.id).join(", ") });
  const fault = engineFault(state, item, action.engine);
  if (fault) return fault;
  const lowers = action.type === "answerCard" && cardLowers(state, action);
  if (!mayAnswer(item, context) && !lowers) return refuse("wrongPost", { posts: [item.post] });
  const place = { item: item.id, ...(action.engine === undefined ? {} : { engine: action.engine }) };
  if (action.type === "readCard") return accept({ type: "cardRead", ...place });
  const note = action.note === undefined ? {} : { note: action.note };
  const answered = judged(state, item, action, context.now);
  return "facts" in answered ? answered : accept({ type: "cardAnswered", ...place, ...answered, ...note });
}

function engineFault(state: SessionState, item: CardItem, n: number | undefined): Verdict | null {
  if (n === undefined) return ofOneEngine(item.moment) ? refuse("engineNeeded") : null;
  if (engineOf(state, n) && isFor(item, n)) return null;
  const found = state.engines.filter((e) => isFor(item, e.n)).map((e) => e.n);
  return refuse("noSuchEngine", { engine: n, found: found.join(", ") || "none" });
}

function mayAnswer({ post }: CardItem, { post: held, person }: Context): boolean {
  return held === post || (held === null && person.mayHold.includes(post));
}

type Judged = Pick<FactOf<"cardAnswered">, "good" | "reading" | "afterS">;

function judged(state: SessionState, item: CardItem, action: AnswerCard, now: number): Judged | Verdict {
  const { kind } = item;
  switch (kind.is) {
    case "done":
    case "alive": {
      if (action.good === undefined) return refuse("missingFigure", { found: "good" });
      const since = kind.is === "alive" && action.engine ? caughtAt(state, action.engine) : null;
      const afterS = since === null ? {} : { afterS: Math.max(0, Math.round((now - since) / 1000)) };
      return { good: action.good, ...afterS };
    }
    case "range":
    case "target": {
      const gauge = state.type.gauges.find((g) => g.id === kind.gauge);
      if (!gauge) return refuse("noSuchGauge", { found: kind.gauge });
      const { reading } = action;
      if (!reading) return refuse("missingFigure", { found: gauge.unit });
      if (reading.unit !== gauge.unit) return refuse("wrongUnit", { found: gauge.unit });
      const { from, to } = gauge.scale;
      if (reading.value < from || reading.value > to) {
        return refuse("outOfRange", { found: `${from} to ${to} ${gauge.unit}` });
      }
      const bounds = boundsOf(state, item);
      if (!bounds.ok) return refuse("missingFigure", { found: bounds.why });
      return { reading, good: withinBounds(bounds.value, reading.value) };
    }
  }
}
