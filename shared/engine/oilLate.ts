import { oilLimitsAt } from "../models/oil/oilBands.ts";
import type { FactOf } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { type Engine, plain } from "./life.ts";

type Exceeded = FactOf<"exceeded">;

/**
 * Returns the oil limits after the catch that a reading shows as passed. Each is reported once, when the first
 * indication or normal pressure is read, with the seconds it took.
 */
export function oilReadLate(state: SessionState, engine: Engine, psi: number, now: number): Exceeded[] {
  const { firstIndication, normal } = oilLimitsAt(state.type.oil, airTemperature(state));
  const isNormal = psi >= normal.atLeast.value;
  return passed(engine, now, { first: isNormal || psi >= firstIndication.atLeast.value, normal: isNormal });
}

/** Returns the same for an engine that is shut down before its oil pressure came. */
export function oilNeverCame(engine: Engine, now: number): Exceeded[] {
  return passed(engine, now, { first: true, normal: true });
}

function passed(engine: Engine, now: number, ends: { first: boolean; normal: boolean }): Exceeded[] {
  const life = plain(engine.life);
  if (life.is !== "caught") return [];
  const late = (limit: Exceeded["limit"], dueAt: number): Exceeded[] => {
    if (now <= dueAt) return [];
    const [allowed, found] = [(dueAt - life.since) / 1000, (now - life.since) / 1000];
    return [{ type: "exceeded", engine: engine.n, limit, allowed, found, unit: "s" }];
  };
  return [
    ...(ends.first && life.firstOilAt === null ? late("oilFirst", life.firstDueAt) : []),
    ...(ends.normal ? late("oilNormal", life.normalDueAt) : []),
  ];
}
