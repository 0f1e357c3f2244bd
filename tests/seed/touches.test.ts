import { expect, it } from "vitest";
import { Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import type { Fact, SessionEvent } from "../../shared/protocol/events.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { playOut } from "./stage.ts";

const four = demo.types.find((t) => t.engines.length === 4) as AircraftType;

/**
 * Returns the fewest touches by which the panel sends a fact: one key; for a read-back the key and the engine's number;
 * for a figure the key, the instrument's scale and the key that records it.
 */
function touchesOf(fact: Fact): number {
  switch (fact.type) {
    case "answered":
      return fact.answer === "readBack" ? 2 : 1;
    case "reading":
    case "checked":
    case "cardAnswered":
      return fact.reading ? 3 : 1;
    case "sent":
      return fact.volts || fact.pressure ? 3 : 1;
    case "delivered":
      return 0;
    default:
      return 1;
  }
}

/** Returns the keys of the figure that a fact holds, if it is typed: its digits, its point and its sign. */
function digitsOf(fact: Fact): number {
  const figure =
    "reading" in fact ? fact.reading : fact.type === "sent" ? (fact.volts ?? fact.pressure) : undefined;
  return figure ? String(figure.value).length : 0;
}

const isSent = ({ fact }: SessionEvent, ...kinds: string[]) =>
  fact.type === "sent" && kinds.includes(fact.kind);

// Measured with each of these seeds: 55 touches; where every figure is typed on the pad, it has 14 digits.
it.each([1, 3, 8])(
  "[CRD-14] four engines with a whole card ask at most 60 touches of the cockpit, none mid-crank (seed %i)",
  (seed) => {
    const stage = new Stage(four, "groundPower");
    stage.everyoneClaims();
    expect(playOut(stage, { seed, pace: 1, cart: "Bal Maiden" })).toBeNull();
    const first = stage.events.findIndex((e) => isSent(e, "readyToStart"));
    const last = stage.events.findLastIndex((e) => isSent(e, "started"));
    const own = stage.events
      .slice(first, last + 1)
      .filter((e) => e.actor.kind === "person" && e.actor.post === "cockpit");
    const touches = own.reduce((sum, e) => sum + touchesOf(e.fact), 0);
    const digits = own.reduce((sum, e) => sum + digitsOf(e.fact), 0);
    console.info(`start: ${touches} touches, and ${digits} digits where they are typed`);
    expect(digits).toBeGreaterThan(0);
    expect(touches).toBeLessThanOrEqual(60);
    // The whole card: every item of the engines is among them, or was answered before.
    const answered = new Set(
      stage.events.flatMap(({ fact }) =>
        fact.type === "cardAnswered" ? [`${fact.item}:${fact.engine ?? 0}`] : [],
      ),
    );
    const asked = (four.card ?? []).filter(
      (i) => (i.moment === "beforeEngine" || i.moment === "caught") && (i.when ?? "usual") === "usual",
    );
    for (const item of asked) {
      for (const n of item.engines ?? four.engines.map((e) => e.n))
        expect(answered).toContain(`${item.id}:${n}`);
    }
    let held = false;
    for (const event of stage.events) {
      if (isSent(event, "cranking")) held = true;
      else if (isSent(event, "caught", "startAbandoned")) held = false;
      else if (held && event.actor.kind === "person" && event.actor.post === "cockpit") {
        expect(["present", "delivered", "alertAcknowledged"]).toContain(event.fact.type);
      }
    }
  },
);
