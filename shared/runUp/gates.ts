import { onceFor } from "../derived/onceFor.ts";
import { type Engine, isTurning } from "../engine/life.ts";
import { type EngineSeries, type GateRule, gaugesShort } from "../models/warmUp/short.ts";
import type { SessionState } from "../session/state.ts";
import type { AircraftType, Gate } from "../types/schema.ts";

/** Readings to keep of a gauge whose rise is required, if the type gives no number. */
const KEPT_FOR_RISE = 60;

/** Returns the gates whose readings are kept: those of the warm-up and of the idle's steps. */
export function keptGates({ warmUp, idle = [] }: Pick<AircraftType, "warmUp" | "idle">): Gate[] {
  return [...warmUp, ...idle.flatMap(({ from }) => from ?? [])];
}

/** Returns how many readings of a gauge an engine keeps for its warm-up; 0 where only the newest counts. */
export function keptOf(gates: readonly Gate[], gauge: string): number {
  return Math.max(
    0,
    ...gates.filter((g) => g.gauge === gauge).map((g) => g.keep ?? ("riseOf" in g ? KEPT_FOR_RISE : 0)),
  );
}

export function gateRules(gates: readonly Gate[]): GateRule[] {
  return gates.map((g) =>
    "riseOf" in g ? { gauge: g.gauge, riseOf: g.riseOf } : { gauge: g.gauge, atLeast: g.atLeast },
  );
}

/** Returns the readings of an engine's gauges since it caught, in seconds of the server's clock since `from`. */
export function warmUpSeries(engine: Engine, gates: readonly Gate[], from: number): EngineSeries {
  const gauges = [...new Set(gates.map((g) => g.gauge))];
  return {
    n: engine.n,
    series: gauges.map((gauge) => {
      const newest = engine.readings[gauge];
      const read = engine.warmUp?.[gauge] ?? (newest ? [newest] : []);
      return {
        gauge,
        readings: read.map(({ at, value, unit }) => ({
          seconds: (at - from) / 1000,
          temperature: { value, unit },
        })),
      };
    }),
  };
}

/**
 * Returns the gauges of turning engines that are still short of their gate. Every gauge must reach it, so the coldest
 * engine decides.
 */
export const gatesShort: (state: SessionState) => readonly { n: number; gauge: string }[] = onceFor(shortIn);

function shortIn(state: SessionState): { n: number; gauge: string }[] {
  const rules = gateRules(state.type.warmUp);
  return state.engines
    .filter((e) => isTurning(e.life))
    .flatMap((e) => {
      const short = gaugesShort(rules, warmUpSeries(e, state.type.warmUp, 0));
      // A reading that cannot be compared never opens a gate.
      return (short.ok ? short.value : rules.map((r) => r.gauge)).map((gauge) => ({ n: e.n, gauge }));
    });
}
