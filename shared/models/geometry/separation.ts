import type { NeighbourKind } from "../../protocol/neighbours.ts";
import type { Limit } from "../../types/limit.ts";
import { found, type Outcome, refused } from "../outcome.ts";
import { convert } from "../units.ts";
import { wake } from "./blastZone.ts";
import { type Jet, type JetAssumption, jetReach } from "./jet.ts";
import { gapToLine, overlap, type Point, type Polygon } from "./polygon.ts";
import { discLine, type PropellerType, propellerOf } from "./propeller.ts";

/** Something near the aircraft: its outline in the aircraft's own metres (x aft of the nose, y to starboard). */
export interface Neighbour {
  id: string;
  kind: NeighbourKind;
  outline: Polygon;
}

/** Clear distances that one kind of neighbour needs, lengths with their sources. */
export interface ClearDistances {
  around: Limit;
  /** Distance behind a turning propeller. */
  behind: Limit;
  /** Fastest stream this kind may stand in, m/s. */
  windMs: number;
}

/** One distance that was checked, metres. */
export interface Separation {
  id: string;
  kind: NeighbourKind;
  rule: "around" | "behind";
  /** The engine that makes the stream, for `behind`. */
  engine: number | null;
  gap: number;
  needed: number;
  /** The larger of the two distances: the type's figure, or the stream that was worked out. */
  decidedBy: "figure" | "stream";
  /** True only when the gap is larger than needed: at the figure itself the neighbour is still within it. */
  clear: boolean;
}

/** The aircraft's part: its plan, the engines that run, and the stream that each makes there. */
export interface SeparationCase {
  type: PropellerType & { plan: { span: number; length: number } };
  engines: readonly number[];
  jet: Jet;
  assumption: JetAssumption;
  distances: Record<NeighbourKind, ClearDistances>;
}

/**
 * Returns every clear distance of a stand. Around: from the aircraft's lines (nose to tail, wing tip to wing tip across
 * the engines' mean station, each disc). Behind, for each neighbour that reaches into an engine's stream: from the
 * engine's disc; the larger of the type's figure and the stream's reach is needed.
 */
export function separations(
  neighbours: readonly Neighbour[],
  { type, engines, jet, assumption, distances }: SeparationCase,
): Outcome<Separation[]> {
  const checks: Separation[] = [];
  const lines = linesOf(type);
  for (const { id, kind, outline } of neighbours) {
    const { around, behind, windMs } = distances[kind];
    const asked = metres(around);
    const askedBehind = metres(behind);
    if (asked === null || askedBehind === null)
      return refused(`the clear distance from ${kind} is not a length`);
    const gap = Math.min(...lines.map(([a, b]) => gapToLine(outline, a, b)));
    checks.push({
      id,
      kind,
      rule: "around",
      engine: null,
      gap,
      needed: asked,
      decidedBy: "figure",
      clear: beyond(gap, asked),
    });
    const reach = jetReach(jet, windMs, assumption).value;
    const needed = Math.max(askedBehind, reach);
    for (const n of engines) {
      const propeller = propellerOf(type, n);
      if (!propeller) return refused(`the type has no engine ${n}`);
      const stream = wake(propeller.hub, propeller.diameter / 2, needed, assumption);
      if (!overlap(stream, outline)) continue;
      const back = gapToLine(outline, ...discLine(propeller));
      checks.push({
        id,
        kind,
        rule: "behind",
        engine: n,
        gap: back,
        needed,
        decidedBy: reach > askedBehind ? "stream" : "figure",
        clear: beyond(back, needed),
      });
    }
  }
  return found(checks);
}

/** A difference below a thousandth of a millimetre is rounding. */
const ROUNDING = 1e-6;

function beyond(gap: number, needed: number): boolean {
  return gap > needed + ROUNDING;
}

function linesOf({ plan, engines, propeller }: SeparationCase["type"]): [Point, Point][] {
  const wingX = engines.reduce((sum, e) => sum + e.x, 0) / engines.length;
  return [
    [
      { x: 0, y: 0 },
      { x: plan.length, y: 0 },
    ],
    [
      { x: wingX, y: -plan.span / 2 },
      { x: wingX, y: plan.span / 2 },
    ],
    ...engines.map(({ x, y }) => discLine({ hub: { x, y }, diameter: propeller.diameter })),
  ];
}

function metres(limit: Limit): number | null {
  const length = convert(limit, "m");
  return length.ok ? length.value.value : null;
}
