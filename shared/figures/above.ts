import { stretchesAbove } from "../models/exceedance.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import type { Gauge } from "../types/schema.ts";
import { type Figure, ofTypeData, read } from "./figure.ts";

/** Returns a figure for each gauge of an engine whose newest reading is above the type's most: for how long, at least. */
export function aboveFigures(state: SessionState, n: number, now: number): Figure[] {
  return state.type.gauges.flatMap((g) => (g.perEngine ? (aboveFigure(state, g, n, now) ?? []) : []));
}

function aboveFigure(state: SessionState, gauge: Gauge, n: number, now: number): Figure | null {
  const engine = engineOf(state, n);
  const newest = engine?.readings[gauge.id];
  if (!newest || gauge.max === undefined || newest.value <= gauge.max) return null;
  const kept = engine.warmUp?.[gauge.id] ?? [];
  const readings = kept.at(-1)?.at === newest.at ? kept : [newest];
  const above = stretchesAbove(readings, gauge.max).at(-1);
  const from = above?.from ?? newest.at;
  return {
    id: `above:${n}:${gauge.id}`,
    words: "above",
    value: Math.max(0, (now - from) / 1000),
    unit: "s",
    verdict: "bad",
    detail: gauge.name,
    inputs: [
      read(`${gauge.name}, number ${n}`, newest),
      ofTypeData("the gauge's most", gauge.max, gauge.source, gauge.unit),
      { name: "first read above", value: "since then", unit: null, source: "the readings", at: from },
      {
        name: "highest read",
        value: above?.most ?? newest.value,
        unit: gauge.unit,
        source: "the readings",
        at: null,
      },
    ],
    equation: "now, less the first of the readings above without one at or below between",
    source: "the type's gauge; it may have been above for longer than anybody read",
  };
}
