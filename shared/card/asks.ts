import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import { caughtAt } from "./caughtAt.ts";
import { cardDue } from "./due.ts";
import { boundsOf } from "./judge.ts";
import { type CardPlace, cardKey, isBad } from "./places.ts";

/** Returns the next item of the card that is asked of a post: one at a time, in the order of the job. */
export function cardAsk(state: SessionState, post: Post, now: number): Ask[] {
  // An item whose target is not known yet waits in the card: its figure could not be judged.
  const next = cardDue(state, now).find((p) => p.item.post === post && canBeJudged(state, p));
  return next ? [askOf(state, next)] : [];
}

function canBeJudged(state: SessionState, { item }: CardPlace): boolean {
  return item.kind.is !== "target" || boundsOf(state, item).ok;
}

/** Returns the ask for one item, whether its moment has come or not. */
export function askOf(state: SessionState, { item, engine }: CardPlace): Ask {
  const { moment, kind, words } = item;
  const caught = engine === null ? null : caughtAt(state, engine);
  const alive = kind.is === "alive" && caught !== null;
  const watched = moment === "cranking" || moment === "caught" || moment === "beforeEngine";
  // Another ask than the first: the touch that said "not good" must not answer it too.
  const again = isBad(state, { item, engine });
  const say = engine === null ? "card" : "cardOfEngine";
  return ask({
    key: `card:${cardKey(item.id, engine)}${again ? ":again" : ""}`,
    say: again ? `${say}.again` : say,
    weight: watched ? 2 : moment === "beforeRelease" ? 4 : 3,
    engine,
    since: moment === "caught" || moment === "cranking" ? caught : null,
    dueAt: alive ? caught + kind.within.value * 1000 : null,
    detail: { is: "ofType", words },
    choices: choicesOf(state, { item, engine }),
  });
}

function choicesOf(state: SessionState, { item: { id, kind }, engine }: CardPlace): Choice[] {
  const draft = { type: "answerCard", item: id, ...(engine === null ? {} : { engine }) } as const;
  const yes = { ...draft, good: true };
  const no = { ...draft, good: false };
  switch (kind.is) {
    case "done":
      return [choice("stepDone", "yes", yes), choice("notGood", "no", no)];
    case "alive":
      return [choice("alive", "yes", yes), choice("notAlive", "no", no)];
    case "range":
    case "target": {
      const unit = state.type.gauges.find((g) => g.id === kind.gauge)?.unit ?? "count";
      return [choice("read", "yes", draft, { is: "figure", field: "reading", unit })];
    }
  }
}
