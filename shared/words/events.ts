import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import type { Fact, SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import type { Refusal } from "../protocol/refusals.ts";
import type { AircraftType } from "../types/schema.ts";
import { say } from "./en.ts";
import { writtenBoth } from "./quantity.ts";

/** What the words of later events lean on: the signals sent so far, and the type's names. */
export interface Lookup {
  sent: ReadonlyMap<number, Extract<Fact, { type: "sent" }>>;
  /** The post each was sent from; none for an observer's. */
  senders: ReadonlyMap<number, Post>;
  type: AircraftType | null;
}

export function lookupOf(events: readonly SessionEvent[]): Lookup {
  const sent = new Map<number, Extract<Fact, { type: "sent" }>>();
  const senders = new Map<number, Post>();
  let type: AircraftType | null = null;
  for (const { seq, fact, actor } of events) {
    if (fact.type === "sent") {
      sent.set(seq, fact);
      if (actor.kind === "person" && actor.post) senders.set(seq, actor.post);
    }
    if (fact.type === "planned") type = fact.aircraftType;
  }
  return { sent, senders, type };
}

/** Who did it, in words. */
export function sayActor({ actor }: SessionEvent): string {
  if (actor.kind === "system") return "Chockside";
  return `${actor.name}, ${say.post(actor.post).toLowerCase()}`;
}

/** What happened, in one line; its figures in the units chosen, with what was read beside them. */
export function sayEvent(
  { fact }: SessionEvent,
  { sent, type }: Lookup,
  units: UnitChoice = AS_READ,
): string {
  const quantity = (q: { value: number; unit: string } | undefined) =>
    q ? `, ${writtenBoth(q, units)}` : "";
  const signal = (seq: number) => {
    const s = sent.get(seq);
    return s ? say.signal(s.kind, s.engine ?? null) : `signal ${seq}`;
  };
  switch (fact.type) {
    case "planned":
      return `Planned: ${fact.aircraft} at ${fact.place}, order ${fact.order.join("-")}`;
    case "planAmended":
      return `Plan changed${fact.order ? `: order ${fact.order.join("-")}` : ""}${fact.reason ? ` (${fact.reason})` : ""}`;
    case "stageReached":
      return `Stage: ${say.stage(fact.stage)}${fact.reason ? ` (${fact.reason})` : ""}`;
    case "briefed":
      return `${say.post(fact.post)} briefed`;
    case "postTaken":
      return `${say.post(fact.post)} ${fact.how === "moved" ? "moved to another device" : fact.how === "accepted" ? "handed over" : "taken"}`;
    case "postOffered":
      return `${say.post(fact.post)} offered`;
    case "postLeft":
      return `${say.post(fact.post)} left${fact.reason ? ` (${fact.reason})` : ""}`;
    case "sent": {
      const place = fact.place ? `, ${say.firePlace(fact.place).toLowerCase()}` : "";
      const seen = fact.seenFrom ? `, seen from ${say.post(fact.seenFrom).toLowerCase()}` : "";
      const note = fact.note ? ` (${fact.note})` : "";
      return `${say.signal(fact.kind, fact.engine ?? null)}${quantity(fact.volts ?? fact.pressure)}${place}${seen}${note}`;
    }
    case "answered": {
      const engine = fact.engine === undefined ? "" : ` ${fact.engine}`;
      const wrong = fact.right === false ? ", wrong" : "";
      return `${say.choice(fact.answer === "done" ? "stopped" : fact.answer)}${engine}${wrong}: ${signal(fact.signal).toLowerCase()}`;
    }
    case "late":
      return `No answer in time: ${signal(fact.signal).toLowerCase()}`;
    case "clearanceVoid":
      return `Clearance for number ${fact.engine} void: ${say.voidCause(fact.cause)}`;
    case "requestWithdrawn":
      return `Request for number ${fact.engine} withdrawn`;
    case "starterCooled":
      return `Starter of number ${fact.engine} rested`;
    case "reading": {
      const name = type?.gauges.find((g) => g.id === fact.gauge)?.name ?? fact.gauge;
      return `${name}${fact.engine === undefined ? "" : `, number ${fact.engine}`}${quantity(fact.reading)}`;
    }
    case "checked": {
      const words = type?.checks.find((c) => c.id === fact.check)?.words ?? fact.check;
      return `${words}${quantity(fact.reading)}: ${fact.good ? "good" : "not good"}`;
    }
    case "alertRaised":
      return `Alert: ${say.alert(fact.kind, fact.engine ?? null)}`;
    case "alertAcknowledged":
      return `Alert seen by ${say.post(fact.post).toLowerCase()}`;
    case "alertEnded":
      return "Alert ended";
    case "alertReset":
      return "Alert acknowledged by everybody and reset";
    case "alertShelved":
      return `Alert put aside by ${say.post(fact.post).toLowerCase()}`;
    case "alertUnshelved":
      return `Alert back before ${say.post(fact.post).toLowerCase()}`;
    case "alertUnsuppressed":
      return "Alert no longer suppressed";
    case "alertAgain":
      return "Alert not acknowledged: it sounds again";
    case "present":
      return `${say.post(fact.post)} is there`;
    case "presenceLapsed":
      return `${say.post(fact.post)} silent: hold`;
    case "delivered":
      return `Shown at ${say.post(fact.post).toLowerCase()}'s panel: ${fact.signals.map(signal).join(", ").toLowerCase()}`;
    case "overrideAsked":
      return `Set aside asked, number ${fact.engine}: ${say.conditionName(fact.condition).toLowerCase()} (${fact.reason})`;
    case "overrideGiven":
      return `Set aside by a second person (${fact.reason})`;
    case "overrideEnded":
      return `Set aside ended: ${say.overrideEnd(fact.why)}`;
    case "bladesCounted":
      return `Number ${fact.engine}: ${fact.blades} blades counted${fact.resistance ? ", RESISTANCE" : ", no resistance"}`;
    case "weatherRead":
      return `Wind ${fact.windKt} kt${fact.gustKt === undefined ? "" : `, gusts ${fact.gustKt} kt`}${fact.temperatureC === undefined ? "" : quantity({ value: fact.temperatureC, unit: "degC" })}${fact.metar === undefined ? "" : ` (${fact.metar})`}`;
    case "flashSeen":
      return `Lightning, ${fact.miles === null ? "nobody could tell how far" : `${fact.miles} miles off`}`;
    case "runUpRead":
      return `Run-up of number ${fact.engine}, ${say.runUpItem(fact.item)}${quantity(fact.reading)}`;
    case "defectWritten":
      return `Defect${fact.engine === undefined ? "" : `, number ${fact.engine}`}: ${fact.words}${fact.barsStart ? " (bars the start)" : ""}`;
    case "defectClosed":
      return `Defect closed (${fact.reason})`;
    case "drillStarted":
      return `Drill opened: ${drillTitle(type, fact.drill)}${fact.engine === undefined ? "" : `, number ${fact.engine}`}`;
    case "drillStepped":
      return `Drill step ${fact.step + 1}, ${say.post(fact.post).toLowerCase()}: ${fact.done ? "done" : "does not apply"}`;
    case "drillEnded":
      return `Drill ended (${fact.outcome})`;
    case "exceeded":
      return `LIMIT PASSED, number ${fact.engine}: ${say.exceeded(fact.limit)} ${fact.found} s, limit ${fact.allowed} s`;
    case "refused":
      return `Refused: ${sayRefused(fact, type, units)}`;
    case "restarted":
      return "The server started again: clearances and leave are void";
    case "clockStepped":
      return "The server's clock was set: clearances and leave are void";
  }
}

function drillTitle(type: AircraftType | null, id: string): string {
  return type?.drills.find((d) => d.id === id)?.title ?? id;
}

/** What was refused and why. */
export function sayRefused(
  fact: Extract<Fact, { type: "refused" }>,
  type: AircraftType | null,
  units: UnitChoice = AS_READ,
): string {
  const { action } = fact;
  const what =
    action.type === "send"
      ? say.signal(action.kind, action.engine ?? null)
      : action.type === "advance"
        ? `go on to ${say.stage(action.to).toLowerCase()}`
        : action.type === "answer"
          ? `${say.choice(action.answer).toLowerCase()}${action.engine === undefined ? "" : ` ${action.engine}`}`
          : REFUSED_WORDS[action.type];
  return `${what}. ${say.refusal(fact.refusal as Refusal, units, type)}`;
}

const REFUSED_WORDS = {
  reading: "a reading",
  recordCheck: "a check",
  claimPost: "taking a post",
  leavePost: "leaving a post",
  offerPost: "offering a post",
  acceptPost: "accepting a post",
  vacatePost: "taking somebody off a post",
  confirmBrief: "a brief",
  amendPlan: "a change of plan",
  abandon: "abandoning the session",
  acknowledgeAlert: "an acknowledgement",
  shelveAlert: "putting an alert aside",
  present: "a touch",
  delivered: "a panel's word",
  override: "setting a condition aside",
  countBlades: "a blade count",
  recordWeather: "a wind reading",
  recordFlash: "a flash of lightning",
  recordRunUp: "a figure of the run-up",
  writeDefect: "a defect",
  closeDefect: "closing a defect",
  startDrill: "opening a drill",
  drillStep: "a drill step",
  endDrill: "ending a drill",
} as const;
