import { onceFor } from "../derived/onceFor.ts";
import { CARD_MOMENTS, type CardMoment } from "../protocol/cardMoments.ts";
import type { SessionState } from "../session/state.ts";
import type { CardItem } from "../types/card.ts";
import type { AircraftType } from "../types/schema.ts";
import type { CardAnswer } from "./answer.ts";

/** One item of the card at one engine; the engine is null for an item of the whole aircraft. */
export interface CardPlace {
  item: CardItem;
  engine: number | null;
}

const OF_ENGINE: Readonly<Record<CardMoment, boolean>> = {
  beforeStart: false,
  beforeEngine: true,
  cranking: true,
  caught: true,
  stable: true,
  beforeRelease: false,
  beforeStop: true,
  stopped: true,
};

/** Returns whether a moment belongs to one engine. */
export function ofOneEngine(moment: CardMoment): boolean {
  return OF_ENGINE[moment];
}

/** Returns whether an item is for this engine; null is the whole aircraft. */
export function isFor(item: CardItem, engine: number | null): boolean {
  if (engine === null) return !ofOneEngine(item.moment);
  return ofOneEngine(item.moment) && (item.engines === undefined || item.engines.includes(engine));
}

/** Returns the items of one moment, of one engine or of the aircraft, in the card's order. */
export function placesAt(
  type: AircraftType,
  moment: CardMoment,
  engine: number | null,
): readonly CardPlace[] {
  const known = placesOf(type);
  const key = cardKey(moment, engine);
  known[key] ??= (type.card ?? [])
    .filter((i) => i.moment === moment && isFor(i, engine))
    .map((item) => ({ item, engine }));
  return known[key];
}

/** The places of a type that were asked for before, by moment and engine. */
const placesOf = onceFor((_type: AircraftType): Record<string, readonly CardPlace[]> => ({}));

/**
 * Returns every item of a card in the order of the job: the engines' moments engine by engine, in the planned order. A
 * return has those of stopping alone.
 */
export function everyPlace({ type, order, returning }: SessionState): CardPlace[] {
  const at = (moments: readonly CardMoment[], engine: number | null) =>
    moments.flatMap((moment) => placesAt(type, moment, engine));
  const last: readonly CardMoment[] = ["beforeStop", "stopped"];
  const stopping = order.flatMap((n) => at(last, n));
  if (returning) return stopping;
  const starting = CARD_MOMENTS.filter((m) => ofOneEngine(m) && !last.includes(m));
  return [
    ...at(["beforeStart"], null),
    ...order.flatMap((n) => at(starting, n)),
    ...at(["beforeRelease"], null),
    ...stopping,
  ];
}

export const cardKey = (item: string, engine: number | null) =>
  engine === null ? item : `${item}:${engine}`;

/** Returns the answer that holds for an item now; null where there is none. */
export function answerAt({ card }: SessionState, { item, engine }: CardPlace): CardAnswer | null {
  return card?.[cardKey(item.id, engine)] ?? null;
}

/** Returns true for an item that was answered, and found not good. */
export function isBad(state: SessionState, place: CardPlace): boolean {
  return answerAt(state, place)?.good === false;
}

/** Returns true for an item that was answered, and found good. */
export function isGood(state: SessionState, place: CardPlace): boolean {
  return answerAt(state, place)?.good === true;
}
