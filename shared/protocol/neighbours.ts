/** What may stand near an aircraft. */
export const NEIGHBOURS = ["fuelling", "building", "aircraft", "public"] as const;
export type NeighbourKind = (typeof NEIGHBOURS)[number];

/** Something near the stand, as seen from the aircraft's nose: to its nearest part, and how wide it is from there. */
export interface StandNeighbour {
  kind: NeighbourKind;
  name: string;
  /** Degrees true. */
  bearingDeg: number;
  distance: { value: number; unit: "m" | "ft" };
  across: { value: number; unit: "m" | "ft" };
}

/** The most a plan names. */
export const MOST_NEIGHBOURS = 12;
