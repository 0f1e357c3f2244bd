import { lastFor } from "../derived/lastFor.ts";
import { plain } from "../engine/life.ts";
import { lifeAt } from "../engine/lifeAt.ts";
import { nextInOrder } from "../engine/nextInOrder.ts";
import { starterHeld } from "../engine/starterHeld.ts";
import type { CardMoment } from "../protocol/cardMoments.ts";
import type { Stage } from "../protocol/stages.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { nextToStop } from "../stopping/nextToStop.ts";
import { isCalledFor } from "./case.ts";
import { answerAt, type CardPlace, isBad, placesAt } from "./places.ts";

const STARTING: readonly Stage[] = ["starting"];
const RUNNING: readonly Stage[] = ["starting", "warmUp"];
const STOPPED_IN: readonly Stage[] = ["starting", "warmUp", "release", "stopping", "stowing"];

/**
 * Returns the items of the card whose moment has come and that nobody has answered, in the order of the job; after them
 * those found not good on which a clearance or the release stands. Empty while a starter is held or a stop stands: what
 * was watched meanwhile is one touch afterwards.
 */
export const cardDue: (state: SessionState, now: number) => readonly CardPlace[] = lastFor(placesDue);

function placesDue(state: SessionState, now: number): CardPlace[] {
  if (state.type.card === undefined || starterHeld(state) || stopOpen(state)) return [];
  const places = [
    ...(state.stage === "groundPower" || state.stage === "starting"
      ? placesAt(state.type, "beforeStart", null)
      : []),
    ...state.order.flatMap((n) => momentsNow(state, n, now).flatMap((m) => placesAt(state.type, m, n))),
    ...(state.stage === "warmUp" ? placesAt(state.type, "beforeRelease", null) : []),
  ].filter((p) => isCalledFor(state, p, now) && !isIdleGenerator(state, p));
  const open = places.filter((p) => answerAt(state, p) === null);
  return [...open, ...places.filter((p) => p.item.clearance && isBad(state, p))];
}

/** Returns true for the load of a generator while ground power carries the bus: it says nothing before that is off. */
function isIdleGenerator({ type, groundPower }: SessionState, { item: { kind } }: CardPlace): boolean {
  const ammeter = type.electrical?.generator?.gauge;
  return "gauge" in kind && kind.gauge === ammeter && groundPower.is === "on";
}

/** Returns the moments that an engine is at or has passed, without those whose time is over. */
function momentsNow(state: SessionState, n: number, now: number): CardMoment[] {
  const engine = engineOf(state, n);
  if (!engine) return [];
  const { is } = plain(lifeAt(engine.life, now));
  const ofStage = (stages: readonly Stage[], ...moments: CardMoment[]) =>
    stages.includes(state.stage) ? moments : [];
  switch (is) {
    case "waiting":
    case "requested":
    case "cooling":
    case "shutDown":
      return [
        ...(is === "shutDown" ? ofStage(STOPPED_IN, "stopped") : []),
        ...ofStage(STARTING, ...(engine.attempts > 0 ? (["cranking"] as const) : [])),
        ...(nextInOrder(state) === n ? ofStage(STARTING, "beforeEngine") : []),
      ];
    case "clear":
    case "cranking":
      return [];
    case "caught":
    case "running":
      return ofStage(RUNNING, "cranking", "caught");
    case "stable":
      return [
        ...ofStage(RUNNING, "cranking", "caught", "stable"),
        ...(nextToStop(state)?.n === n ? ofStage(["stopping"], "beforeStop") : []),
      ];
  }
}
