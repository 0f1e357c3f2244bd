/** Kinds of things that may stand near an aircraft. */
export const NEIGHBOURS = ["fuelling", "building", "aircraft", "public"] as const;
export type NeighbourKind = (typeof NEIGHBOURS)[number];

/** Something near the stand, seen from the aircraft's nose: the distance to its nearest part, and its width there. */
export interface StandNeighbour {
  kind: NeighbourKind;
  name: string;
  /** Degrees true. */
  bearingDeg: number;
  distance: { value: number; unit: "m" | "ft" };
  across: { value: number; unit: "m" | "ft" };
}

/** Most neighbours that one plan may name. */
export const MOST_NEIGHBOURS = 12;
