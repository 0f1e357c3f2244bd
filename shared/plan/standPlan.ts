import { wake } from "../models/geometry/blastZone.ts";
import { type Jet, type JetAssumption, jetReach } from "../models/geometry/jet.ts";
import { jetOf } from "../models/geometry/jetOf.ts";
import { outlineOf } from "../models/geometry/neighbour.ts";
import type { Polygon } from "../models/geometry/polygon.ts";
import { propellerOf, turningArc } from "../models/geometry/propeller.ts";
import { type Neighbour, type Separation, separations } from "../models/geometry/separation.ts";
import { type Outcome, refused } from "../models/outcome.ts";
import { inUnit } from "../models/units.ts";
import { NEIGHBOURS, type NeighbourKind, type StandNeighbour } from "../protocol/neighbours.ts";
import type { AircraftType } from "../types/schema.ts";

/** The data by which a stand is judged: the type, the engines to start, and the neighbours. */
export interface StandCase {
  type: AircraftType;
  engines: readonly number[];
  headingDeg: number | undefined;
  neighbours: readonly StandNeighbour[];
}

/** Used when no stream is known: the type's figures alone decide. */
const NO_JET: { jet: Jet; assumption: JetAssumption } = {
  jet: { speedMs: 0, diameterM: 0 },
  assumption: {
    decay: 1,
    halfWidth: 0.1,
    groundFactor: 1,
    source: {
      basis: "invented",
      text: "the type gives no stream: its figures are drawn as wide as a free jet's",
    },
  },
};

/** Returns the outlines of the neighbours, in the order of the plan; refused without a heading. */
export function outlinesOf({ neighbours, headingDeg }: StandCase): Outcome<Neighbour[]> {
  if (headingDeg === undefined)
    return refused("the heading of the nose is not planned: bearings have no place");
  const all = neighbours.map((n, i) => ({ id: String(i), kind: n.kind, outline: outlineOf(n, headingDeg) }));
  return { ok: true, value: all };
}

/** Returns every clear distance of the stand; refused without a heading, or where the type gives no distances. */
export function clearOf(stand: StandCase): Outcome<Separation[]> {
  const { type, engines } = stand;
  const distances = type.ramp?.distances;
  if (!distances) return refused("the type gives no clear distances");
  const near = outlinesOf(stand);
  if (!near.ok) return near;
  const stream = jetOf(type);
  const { jet, assumption } = stream.ok ? stream.value : NO_JET;
  const by = (kind: NeighbourKind) => ({ ...distances[kind], windMs: inUnit(distances[kind].wind, "m/s") });
  const all = {
    fuelling: by("fuelling"),
    building: by("building"),
    aircraft: by("aircraft"),
    public: by("public"),
  };
  return separations(near.value, { type, engines, jet, assumption, distances: all });
}

/**
 * Ground behind one engine that must stay clear of one kind of neighbour: the larger of the type's figure and the
 * stream's reach.
 */
export interface KeptBehind {
  engine: number;
  kind: NeighbourKind;
  metres: number;
  decidedBy: "figure" | "stream";
  polygon: Polygon;
}

/**
 * Returns for each engine the ground to keep clear of the kind that needs the most; empty where the type gives no
 * distances.
 */
export function keptBehind({ type, engines }: Pick<StandCase, "type" | "engines">): KeptBehind[] {
  const distances = type.ramp?.distances;
  if (!distances) return [];
  const stream = jetOf(type);
  const { jet, assumption } = stream.ok ? stream.value : NO_JET;
  const asked = NEIGHBOURS.map((kind) => {
    const figure = inUnit(distances[kind].behind, "m");
    const reach = jetReach(jet, inUnit(distances[kind].wind, "m/s"), assumption).value;
    return {
      kind,
      metres: Math.max(figure, reach),
      decidedBy: reach > figure ? ("stream" as const) : ("figure" as const),
    };
  });
  const most = asked.reduce((a, b) => (b.metres > a.metres ? b : a));
  return engines.flatMap((engine) => {
    const propeller = propellerOf(type, engine);
    if (!propeller) return [];
    return [
      { engine, ...most, polygon: wake(propeller.hub, propeller.diameter / 2, most.metres, assumption) },
    ];
  });
}

/** Returns the ground to keep clear of an engine's propeller, by the guard's margin; null where the type gives none. */
export function arcOf(type: AircraftType, engine: number): Polygon | null {
  const propeller = propellerOf(type, engine);
  const margin = type.ramp?.guard ? inUnit(type.ramp.guard.arcMargin, "m") : 0;
  return propeller && turningArc(propeller, margin);
}
