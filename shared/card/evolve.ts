import { isTurning, plain } from "../engine/life.ts";
import type { CardMoment } from "../protocol/cardMoments.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Unit } from "../protocol/quantity.ts";
import { evolveFigure } from "../readings/evolve.ts";
import { attributionOf } from "../session/attribute.ts";
import type { SessionState } from "../session/state.ts";
import { cardKey, isFor } from "./places.ts";

/**
 * Returns the state after an item was read out or answered. A figure is also the newest reading of its gauge, so nobody
 * reads it twice.
 */
export function evolveCard(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"cardAnswered" | "cardRead">,
): SessionState {
  const key = cardKey(fact.item, fact.engine ?? null);
  const by = attributionOf(event, null);
  if (fact.type === "cardRead") {
    const person = event.actor.kind === "person" ? event.actor.id : "";
    return { ...state, cardRead: { key, person, name: by.name, at: event.at } };
  }
  const challenge = state.cardRead;
  const other =
    event.actor.kind === "person" && challenge?.key === key && challenge.person !== event.actor.id;
  const answer = {
    by,
    good: fact.good,
    reading: fact.reading ? { value: fact.reading.value, unit: fact.reading.unit as Unit } : null,
    note: fact.note ?? null,
    ...(fact.afterS === undefined ? {} : { after: fact.afterS }),
    ...(other ? { readBy: { name: challenge.name, at: challenge.at } } : {}),
  };
  const { cardRead: _read, ...rest } = state;
  const next: SessionState = {
    ...(challenge?.key === key ? rest : state),
    card: { ...state.card, [key]: answer },
  };
  return read(next, event, fact);
}

function read(state: SessionState, event: SessionEvent, fact: FactOf<"cardAnswered">): SessionState {
  const kind = state.type.card?.find((i) => i.id === fact.item)?.kind;
  if (!fact.reading || (kind?.is !== "range" && kind?.is !== "target")) return state;
  const perEngine = state.type.gauges.find((g) => g.id === kind.gauge)?.perEngine === true;
  const at = perEngine && fact.engine !== undefined ? { engine: fact.engine } : {};
  return evolveFigure(state, event, { type: "reading", gauge: kind.gauge, reading: fact.reading, ...at });
}

/** Moments whose answers belong to one attempt: the next one begins them anew. */
const OF_ATTEMPT: readonly CardMoment[] = ["cranking", "caught", "stable", "beforeStop", "stopped"];

/**
 * Returns the state without the answers that an engine's life has ended: those of the last attempt once it is cranked
 * again, and what was prepared for a start once the engine has stopped turning.
 */
export function cardKept(before: SessionState, after: SessionState): SessionState {
  if (after.card === undefined || before.engines === after.engines) return after;
  let card = after.card;
  for (const engine of after.engines) {
    const was = before.engines[engine.n - 1]?.life;
    if (!was || was === engine.life) continue;
    const begins = plain(engine.life).is === "cranking" && plain(was).is !== "cranking";
    const ends = isTurning(was) && !isTurning(engine.life);
    if (begins) card = without(after, card, engine.n, OF_ATTEMPT);
    if (ends) card = without(after, card, engine.n, ["beforeEngine"]);
  }
  return card === after.card ? after : { ...after, card };
}

function without(
  { type }: SessionState,
  card: NonNullable<SessionState["card"]>,
  engine: number,
  moments: readonly CardMoment[],
): NonNullable<SessionState["card"]> {
  const gone = new Set(
    (type.card ?? [])
      .filter((i) => moments.includes(i.moment) && isFor(i, engine))
      .map((i) => cardKey(i.id, engine)),
  );
  return Object.fromEntries(Object.entries(card).filter(([key]) => !gone.has(key)));
}
