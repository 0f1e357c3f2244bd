import { AS_READ } from "../../shared/models/unitChoice.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { gaugeName } from "../../shared/types/gaugeName.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say } from "../../shared/words/en.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";

/**
 * Returns one line for an event that a bystander would notice; null for others.
 * @param signals texts of earlier signals by event number, which answers repeat
 * @param type the type whose names for checks and gauges replace their ids
 */
export function narrate(
  event: SessionEvent,
  signals: ReadonlyMap<number, string>,
  type: AircraftType | null,
): string | null {
  const words = wordsOf(event, signals, type);
  if (words === null) return null;
  const { actor } = event;
  const who = actor.kind === "system" ? "Chockside" : `${say.post(actor.post)}, ${actor.name}`;
  return `${new Date(event.at).toISOString().slice(11, 19)}  ${who}: ${words}`;
}

function wordsOf(
  { fact }: SessionEvent,
  signals: ReadonlyMap<number, string>,
  type: AircraftType | null,
): string | null {
  switch (fact.type) {
    case "sent": {
      const figure = fact.volts ?? fact.pressure;
      const said = say.signal(fact.kind, fact.engine ?? null);
      return figure ? `${said} ${figure.value} ${figure.unit}` : said;
    }
    case "answered": {
      const number = fact.engine === undefined ? "" : ` ${fact.engine}`;
      const signal = signals.get(fact.signal);
      return `${say.answer(fact.answer)}${number}${signal ? ` (${signal})` : ""}`;
    }
    case "reading":
      return `${gaugeName(type, fact.gauge)}${fact.engine === undefined ? "" : ` ${fact.engine}`} ${fact.reading.value} ${fact.reading.unit}`;
    case "checked": {
      const figure = fact.reading ? ` ${fact.reading.value} ${fact.reading.unit}` : "";
      return `${type?.checks.find((c) => c.id === fact.check)?.words ?? fact.check}${figure}: ${say.choice(fact.good ? "good" : "notGood")}`;
    }
    case "bladesCounted":
      return `${fact.blades} blades of ${fact.engine}${fact.resistance ? ", with resistance" : ""}`;
    case "weatherRead":
      return `wind ${fact.windKt} kt${fact.gustKt === undefined ? "" : `, gusts ${fact.gustKt} kt`}`;
    case "briefed":
      return say.choice("briefed");
    case "postTaken":
      return `takes the post of ${say.post(fact.post)}`;
    case "postLeft":
      return `leaves the post of ${say.post(fact.post)}`;
    case "stageReached":
      return say.stage(fact.stage);
    case "clearanceVoid":
      return `clearance for ${fact.engine} is void: ${say.voidCause(fact.cause)}`;
    case "alertRaised":
      return say.alert(fact.kind, fact.engine ?? null);
    case "refused":
      return outcomesOf(say).refusal(fact.refusal, AS_READ, type);
    default:
      return null;
  }
}
