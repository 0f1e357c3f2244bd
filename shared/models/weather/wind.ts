/**
 * Wind as reported: the direction from which it blows, degrees, true or magnetic like the heading; speeds in one unit.
 */
export interface Wind {
  fromDeg: number;
  speed: number;
  gust?: number;
}

/** Wind in components along and across the aircraft, in the wind's unit. */
export interface NoseWind {
  /** Positive on the nose, negative on the tail. */
  head: number;
  /** Positive from starboard, negative from port. */
  cross: number;
}

/** Returns an angle as the same direction in (-180, 180]. */
export function wrapDegrees(angle: number): number {
  const turned = ((angle % 360) + 360) % 360;
  return turned > 180 ? turned - 360 : turned;
}

/**
 * Returns head = V cos d and cross = V sin d, d being the angle from the nose to the direction from which the wind
 * comes.
 */
export function windOnNose(wind: { fromDeg: number; speed: number }, headingDeg: number): NoseWind {
  const angle = (wrapDegrees(wind.fromDeg - headingDeg) * Math.PI) / 180;
  return { head: wind.speed * Math.cos(angle), cross: wind.speed * Math.sin(angle) };
}

/** Returns the components to plan with: those of the gust if one is reported, else those of the mean wind. */
export function planningWind(wind: Wind, headingDeg: number): NoseWind {
  return windOnNose({ fromDeg: wind.fromDeg, speed: Math.max(wind.speed, wind.gust ?? 0) }, headingDeg);
}

/**
 * Returns the least headwind (most tailwind) and the largest crosswind, without sign, of a wind of one speed whose
 * direction varies clockwise from one limit to the other. For a variable wind give 0 and 360.
 */
export function worstOnNose(
  speed: number,
  clockwiseFromDeg: number,
  clockwiseToDeg: number,
  headingDeg: number,
): { leastHead: number; mostCross: number } {
  const sweep =
    clockwiseToDeg - clockwiseFromDeg >= 360
      ? 360
      : (((clockwiseToDeg - clockwiseFromDeg) % 360) + 360) % 360;
  const reached = (bearing: number) => (((bearing - clockwiseFromDeg) % 360) + 360) % 360 <= sweep;
  const ends = [clockwiseFromDeg, clockwiseToDeg].map((fromDeg) =>
    windOnNose({ fromDeg, speed }, headingDeg),
  );
  const leastHead = reached(headingDeg + 180) ? -speed : Math.min(...ends.map((e) => e.head));
  const abeam = reached(headingDeg + 90) || reached(headingDeg - 90);
  return { leastHead, mostCross: abeam ? speed : Math.max(...ends.map((e) => Math.abs(e.cross))) };
}

/** The direction of a wind: one figure, perhaps one that swings, or unknown (null). Degrees. */
export interface WindFrom {
  fromDeg: number | null;
  swing: readonly [from: number, to: number] | null;
}

/**
 * Returns the worst components of a wind, of one speed, on a heading: the most from behind (0 when none can be) and the
 * most across, without sign. An unknown direction or heading counts as the worst one; a swinging direction as the worst
 * of its sector and of the direction given.
 */
export function worstWind(
  speed: number,
  { fromDeg, swing }: WindFrom,
  headingDeg: number | null,
): { tail: number; cross: number } {
  if (headingDeg === null || (fromDeg === null && swing === null)) return { tail: speed, cross: speed };
  const sectors = [swing, fromDeg === null ? null : ([fromDeg, fromDeg] as const)].filter((s) => s !== null);
  const worst = sectors.map(([from, to]) => worstOnNose(speed, from, to, headingDeg));
  return {
    tail: Math.max(0, ...worst.map((w) => -w.leastHead)),
    cross: Math.max(...worst.map((w) => w.mostCross)),
  };
}

/** Least whole knots of forces 1 to 12 (Beaufort scale as the WMO prints it). */
const FORCES_KT = [1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64];

/**
 * Returns the Beaufort force of a wind in knots. It rounds a fraction of a knot first, because the scale is in whole
 * knots.
 */
export function beaufort(knots: number): number {
  const whole = Math.round(knots);
  return FORCES_KT.filter((least) => whole >= least).length;
}
