import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import type { Fact, FactOf, SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { Drill } from "../types/drill.ts";
import type { AircraftType } from "../types/schema.ts";
import { typeIn } from "./authored.ts";
import { type EventWords, events as english } from "./en/events.ts";
import { events as spanish } from "./es/events.ts";
import type { Language } from "./language.ts";
import { outcomesOf } from "./outcomes.ts";
import { writtenBoth } from "./quantity.ts";
import { sayRehearsed } from "./rehearsed.ts";
import type { Say } from "./say.ts";

/** Loaded later than the panel itself, so both languages come together. */
const WORDS: Readonly<Record<Language, EventWords>> = { en: english, es: spanish };

const itemName = (type: AircraftType | null, id: string): string =>
  type?.card?.find((i) => i.id === id)?.words ?? id;

function planWords({ order, headingDeg }: FactOf<"planAmended">, words: EventWords): string {
  if (order) return words.planOrder(order.join("-"));
  return headingDeg === undefined ? words.planAmended : words.planHeading(String(headingDeg));
}

export const eventWords = (say: Say): EventWords => WORDS[say.language];

/** Context for the words of later events: the signals sent so far, the type's names, and the language. */
export interface Lookup {
  sent: ReadonlyMap<number, Extract<Fact, { type: "sent" }>>;
  /** The post that sent each signal; none for an observer's. */
  senders: ReadonlyMap<number, Post>;
  /** The drills opened so far, by the event that opened each. */
  drills: ReadonlyMap<number, string>;
  type: AircraftType | null;
  say: Say;
}

/** @param known the type of the session, for a list of events that does not begin with the plan */
export function lookupOf(
  events: readonly SessionEvent[],
  say: Say,
  known: AircraftType | null = null,
): Lookup {
  const sent = new Map<number, Extract<Fact, { type: "sent" }>>();
  const senders = new Map<number, Post>();
  const drills = new Map<number, string>();
  let type = known;
  for (const { seq, fact, actor } of events) {
    if (fact.type === "sent") {
      sent.set(seq, fact);
      if (actor.kind === "person" && actor.post) senders.set(seq, actor.post);
    }
    if (fact.type === "drillStarted") drills.set(seq, fact.drill);
    if (fact.type === "planned") type = typeIn(fact.aircraftType, say.language);
  }
  return { sent, senders, drills, type, say };
}

/** Returns the actor in words. */
export function sayActor({ actor }: SessionEvent, say: Say): string {
  if (actor.kind === "system") return "Chockside";
  return `${actor.name}, ${say.post(actor.post).toLowerCase()}`;
}

/** Returns a sentence with its reason or note behind it, if there is one. */
const noted = (said: string, note: string | undefined) => (note ? `${said} (${note})` : said);

/** Returns an event in one line, its figures in the chosen units with the original reading beside them. */
export function sayEvent({ fact }: SessionEvent, lookup: Lookup, units: UnitChoice = AS_READ): string {
  const { sent, drills, type, say } = lookup;
  const words = eventWords(say);
  const small = (post: Post) => say.post(post).toLowerCase();
  const read = (q: { value: number; unit: string } | undefined) => (q ? [writtenBoth(q, units)] : []);
  const at = (engine: number | undefined) => (engine === undefined ? [] : [words.number(engine)]);
  const drill = (id: string | undefined): { title: string; cards?: Drill["cards"] } =>
    type?.drills.find((d) => d.id === id) ?? { title: id ?? "" };
  const signal = (seq: number) => {
    const s = sent.get(seq);
    return s ? say.signal(s.kind, s.engine ?? null) : words.signal(seq);
  };
  switch (fact.type) {
    case "planned":
      return words[fact.purpose === "return" ? "returns" : "planned"](
        fact.aircraft,
        fact.place,
        fact.order.join("-"),
      );
    case "planAmended":
      return noted(planWords(fact, words), fact.reason);
    case "stageReached":
      return noted(words.stage(say.stage(fact.stage)), fact.reason);
    case "briefed":
      return words.briefed(say.post(fact.post));
    case "postTaken":
      return words.post[fact.how](say.post(fact.post));
    case "postOffered":
      return words.offered(say.post(fact.post));
    case "postLeft":
      return noted(words.left(say.post(fact.post)), fact.reason);
    case "sent": {
      const place = fact.place ? [say.firePlace(fact.place).toLowerCase()] : [];
      const seen = fact.seenFrom ? [words.seenFrom(small(fact.seenFrom))] : [];
      const stands = fact.standsAt ? [words.standsAt(fact.standsAt)] : [];
      const said = say.signal(fact.kind, fact.engine ?? null);
      if (fact.kind === "disregard") return words.slip(signal(fact.ref ?? 0).toLowerCase());
      return noted(
        [said, ...read(fact.volts ?? fact.pressure), ...place, ...seen, ...stands].join(", "),
        fact.note,
      );
    }
    case "answered": {
      const answer = say.answer(fact.answer);
      const whole = fact.engine === undefined ? answer : `${answer} ${fact.engine}`;
      const right = fact.right === false ? [words.wrong] : [];
      return `${[whole, ...right].join(", ")}: ${signal(fact.signal).toLowerCase()}`;
    }
    case "late":
      return words.late(signal(fact.signal).toLowerCase());
    case "clearanceVoid":
      return words.clearanceVoid(fact.engine, say.voidCause(fact.cause));
    case "requestWithdrawn":
      return words.withdrawn(fact.engine);
    case "starterCooled":
      return words.rested(fact.engine);
    case "reading": {
      const name = type?.gauges.find((g) => g.id === fact.gauge)?.name ?? fact.gauge;
      return [name, ...at(fact.engine), ...read(fact.reading)].join(", ");
    }
    case "checked": {
      const check = type?.checks.find((c) => c.id === fact.check)?.words ?? fact.check;
      return `${[check, ...read(fact.reading)].join(", ")}: ${fact.good ? words.good : words.notGood}`;
    }
    case "cardRead":
      return words.cardRead([itemName(type, fact.item), ...at(fact.engine)].join(", "));
    case "cardAnswered": {
      const after = fact.afterS === undefined ? [] : [words.afterCatch(fact.afterS)];
      const item = [itemName(type, fact.item), ...at(fact.engine), ...read(fact.reading), ...after].join(
        ", ",
      );
      return noted(`${item}: ${fact.good ? words.good : words.notGood}`, fact.note);
    }
    case "equipmentShown":
      return words.shown(fact.equipment.id, fact.equipment.name);
    case "voltTraceGiven": {
      const seconds = ((fact.samples.at(-1)?.[0] ?? 0) - (fact.samples[0]?.[0] ?? 0)) / 1000;
      return words.trace(fact.samples.length, seconds);
    }
    case "alertRaised":
      return words.alert(say.alert(fact.kind, fact.engine ?? null));
    case "alertAcknowledged":
      return words.alertSeen(small(fact.post));
    case "alertShelved":
    case "alertUnshelved":
      return words[fact.type](small(fact.post));
    case "alertEnded":
    case "alertReset":
    case "alertUnsuppressed":
    case "alertAgain":
    case "aircraftKnown":
    case "fieldKnown":
    case "fireOutLapsed":
    case "restarted":
    case "clockStepped":
      return words[fact.type];
    case "rehearsed":
      return sayRehearsed(fact.said, say, units);
    case "supervisesAlso":
      return words.supervisesAlso(fact.aircraft.length === 0 ? null : fact.aircraft.join(", "));
    case "present":
      return words.present(say.post(fact.post));
    case "presenceLapsed":
      return words.silent(say.post(fact.post));
    case "silenceHeld":
      return words.silent(fact.posts.map((p) => say.post(p)).join(", "));
    case "alertWidened":
      return words.alertWidened(fact.to.map(small).join(", "));
    case "delivered":
      return words.delivered(small(fact.post), fact.signals.map(signal).join(", ").toLowerCase());
    case "abandonAsked":
      return noted(words.abandonAsked, fact.reason);
    case "overrideAsked":
      return noted(
        words.overrideAsked(fact.engine, say.conditionName(fact.condition).toLowerCase()),
        fact.reason,
      );
    case "overrideGiven":
      return noted(words.overrideGiven, fact.reason);
    case "overrideEnded":
      return words.overrideEnded(outcomesOf(say).overrideEnd(fact.why));
    case "bladesCounted":
      return (fact.resistance ? words.resistance : words.blades)(fact.engine, fact.blades);
    case "weatherRead": {
      const gusts = fact.gustKt === undefined ? [] : [words.gusts(fact.gustKt)];
      const air = fact.temperatureC === undefined ? [] : read({ value: fact.temperatureC, unit: "degC" });
      return noted([words.wind(fact.windKt), ...gusts, ...air].join(", "), fact.metar);
    }
    case "instrumentsRead":
      return words.instruments(fact.name, fact.readings.length);
    case "stationRead":
      return words.station(fact.name, fact.metar);
    case "flashSeen":
      if (fact.miles === null) return words.lightningSomewhere;
      return fact.of === undefined ? words.lightning(fact.miles) : words.lightningTold(fact.of, fact.miles);
    case "runUpRead":
      return [words.runUp(fact.engine, say.runUpItem(fact.item)), ...read(fact.reading)].join(", ");
    case "defectWritten": {
      const said =
        fact.engine === undefined ? words.defect(fact.words) : words.defectAt(fact.engine, fact.words);
      return noted(said, fact.barsStart ? words.bars : undefined);
    }
    case "defectClosed":
      return noted(words.defectClosed, fact.reason);
    case "defectMended":
      return noted(words.defectMended, fact.reason);
    case "drillStarted":
      return [words.drill(drill(fact.drill).title), ...at(fact.engine)].join(", ");
    case "drillStepped": {
      const { title, cards } = drill(drills.get(fact.run));
      const step = cards?.[fact.post][fact.step]?.words ?? String(fact.step + 1);
      return (fact.done ? words.stepDone : words.stepLeft)(title, small(fact.post), step);
    }
    case "drillEnded":
      return noted(
        words.drillEnded(drill(drills.get(fact.run)).title),
        outcomesOf(say).drillOutcome(fact.outcome),
      );
    case "exceeded":
      return words.exceeded(fact.engine, outcomesOf(say).exceeded(fact.limit), fact.found, fact.allowed);
    case "coolDownCut": {
      const short = fact.short.map((s) => {
        if (s.is === "time") return words.idleShort(Math.floor(s.found), s.allowed);
        const name = type?.gauges.find((g) => g.id === s.gauge)?.name ?? s.gauge;
        const of = (value: number) => writtenBoth({ value, unit: s.unit }, units);
        return words.stillWarm(name, s.found === null ? words.notRead : of(s.found), of(s.allowed));
      });
      return words.coolDownCut(fact.engine, short.join("; "));
    }
    case "refused":
      return words.refused(sayRefused(fact, lookup, units));
  }
}

/** Returns the refused action, and the reason. */
export function sayRefused(
  { action, refusal }: Extract<Fact, { type: "refused" }>,
  { type, say }: Lookup,
  units: UnitChoice = AS_READ,
): string {
  return `${refusedAction(action, say)}. ${outcomesOf(say).refusal(refusal as Refusal, units, type)}`;
}

function refusedAction(action: Extract<Fact, { type: "refused" }>["action"], say: Say): string {
  const words = eventWords(say);
  switch (action.type) {
    case "send":
      return say.signal(action.kind, action.engine ?? null);
    case "advance":
      return words.advance(say.stage(action.to).toLowerCase());
    case "answer": {
      const answer = say.answer(action.answer).toLowerCase();
      return action.engine === undefined ? answer : `${answer} ${action.engine}`;
    }
    default:
      return words.actions[action.type];
  }
}
