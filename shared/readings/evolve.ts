import { withEngine, withLife } from "../engine/evolve.ts";
import { type Engine, isTurning, plain } from "../engine/life.ts";
import { isRevoked } from "../engine/unsafe.ts";
import { oilLimitsAt } from "../models/oil/oilBands.ts";
import { lowestSeen } from "../power/lowestVolts.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Unit } from "../protocol/quantity.ts";
import { keptGates, keptOf } from "../runUp/gates.ts";
import type { Reading } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";
import { keptAtIdle } from "../stopping/coolDown.ts";
import { airTemperature } from "../weather/air.ts";

/** Returns the state after a reading or a check. Oil pressure after the catch moves the engine to its next state. */
export function evolveFigure(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"reading" | "checked" | "runUpRead">,
): SessionState {
  const name = event.actor.kind === "person" ? event.actor.name : "";
  if (fact.type === "checked") {
    const reading = fact.reading ? { value: fact.reading.value, unit: fact.reading.unit as Unit } : null;
    const usual = state.type.checks.find((c) => c.id === fact.check)?.post;
    const post = event.actor.kind === "person" ? event.actor.post : null;
    const elsewhere = post === usual ? {} : { post };
    const loaded = reading?.unit === "V" && underLoad(state) ? { loaded: true as const } : {};
    const kept = { reading, good: fact.good, at: event.at, name, note: fact.note ?? null };
    const record = { ...kept, ...elsewhere, ...loaded };
    return { ...state, checks: { ...state.checks, [fact.check]: record } };
  }
  const reading: Reading = { value: fact.reading.value, unit: fact.reading.unit as Unit, at: event.at, name };
  if (fact.type === "runUpRead") {
    return withEngine(state, fact.engine, (e) => ({ ...e, runUp: { ...e.runUp, [fact.item]: reading } }));
  }
  if (fact.engine === undefined) {
    const read = { ...state, readings: { ...state.readings, [fact.gauge]: reading } };
    return fact.gauge === "busVolts" ? lowestSeen(read, { ...reading, from: "busVolts" }) : read;
  }
  return withEngine(state, fact.engine, (e) => {
    const read = keptForWarmUp(
      state,
      { ...e, readings: { ...e.readings, [fact.gauge]: reading } },
      fact.gauge,
      reading,
    );
    return fact.gauge === "oilPressure" ? oilRead(state, read, reading) : read;
  });
}

/** True while a battery's volts cannot be those at rest. */
function underLoad({ groundPower, engines }: SessionState): boolean {
  return groundPower.is === "on" || engines.some((e) => isTurning(e.life));
}

/**
 * Returns the readings of the warm-up's gauges, as many as the type keeps, and of the cool-down's in a return. The first
 * one stays, because a rise is counted from it.
 */
function keptForWarmUp(state: SessionState, engine: Engine, gauge: string, reading: Reading): Engine {
  const most = Math.max(keptOf(keptGates(state.type), gauge), keptAtIdle(state, gauge));
  if (most === 0 || !isTurning(engine.life)) return engine;
  const [first, ...rest] = [...(engine.warmUp?.[gauge] ?? []), reading];
  if (!first) return engine;
  const kept = [first, ...rest.slice(Math.max(0, rest.length - (most - 1)))];
  return { ...engine, warmUp: { ...engine.warmUp, [gauge]: kept } };
}

function oilRead(state: SessionState, engine: Engine, reading: Reading): Engine {
  const life = plain(engine.life);
  if (life.is !== "caught") return engine;
  const { firstIndication, normal } = oilLimitsAt(state.type.oil, airTemperature(state));
  if (reading.value >= normal.atLeast.value) {
    const revoked = isRevoked(engine) ? { revoked: true as const } : {};
    return withLife(engine, { is: "running", since: reading.at, ...revoked });
  }
  if (life.firstOilAt === null && reading.value >= firstIndication.atLeast.value) {
    return withLife(engine, { ...life, firstOilAt: reading.at });
  }
  return engine;
}
