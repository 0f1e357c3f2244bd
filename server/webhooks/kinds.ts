import type { Fact, FactType, SessionEvent } from "../../shared/protocol/events.ts";
import { signalOf } from "../../shared/signals/all.ts";

/** The kinds of events that a webhook may name. */
export const WEBHOOK_KINDS = [
  "session.planned",
  "session.stage",
  "stop.given",
  "alert.raised",
  "engine.exceeded",
  "defect.written",
  "defect.mended",
  "defect.closed",
] as const;
export type WebhookKind = (typeof WEBHOOK_KINDS)[number];

/** Facts that are told; all others stay inside. */
const KINDS: Readonly<Partial<Record<FactType, WebhookKind>>> = {
  planned: "session.planned",
  stageReached: "session.stage",
  alertRaised: "alert.raised",
  exceeded: "engine.exceeded",
  defectWritten: "defect.written",
  defectMended: "defect.mended",
  defectClosed: "defect.closed",
};

/** Returns the kind of an event; null for one that no webhook tells. */
export function webhookKind({ fact }: SessionEvent): WebhookKind | null {
  if (fact.type === "sent") return signalOf(fact.kind).class === "stop" ? "stop.given" : null;
  return KINDS[fact.type] ?? null;
}

/** Version of the form of the body. */
const FORM = 1;

/** Returns the body of a message: the event without the names of people and devices. */
export function webhookBody(kind: WebhookKind, event: SessionEvent): string {
  const { session, seq, at, actor, fact } = event;
  const by = actor.kind === "person" ? (actor.post ?? "observer") : "system";
  const data = { v: FORM, session, seq, by, fact: told(fact) };
  return JSON.stringify({ type: kind, timestamp: new Date(at).toISOString(), data });
}

/** Returns the fact as it is told: of a plan, the aircraft, the place and the type's name and version. */
function told(fact: Fact): object {
  if (fact.type !== "planned") return fact;
  const { type, aircraft, place, purpose, aircraftType } = fact;
  return {
    type,
    aircraft,
    place,
    purpose: purpose ?? "start",
    typeId: aircraftType.id,
    version: aircraftType.version,
  };
}
