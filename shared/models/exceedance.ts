/** One reading of a gauge, milliseconds and its value. */
export interface TimedReading {
  at: number;
  value: number;
}

/** A stretch of readings above a limit. */
export interface Above {
  /** The first reading above. */
  from: number;
  /** The first reading at the limit or below it; null where none followed. */
  to: number | null;
  most: number;
  /** The last reading above. */
  last: number;
}

/**
 * Returns each stretch in which the readings of a gauge were above a limit, in order of time. At the limit is not above.
 * The gauge may have been above for longer than the readings say, and between two of them below.
 */
export function stretchesAbove(readings: readonly TimedReading[], limit: number): Above[] {
  const found: Above[] = [];
  for (const { at, value } of readings) {
    const open = found.at(-1);
    const running = open && open.to === null ? open : null;
    if (value > limit) {
      if (running) Object.assign(running, { most: Math.max(running.most, value), last: at });
      else found.push({ from: at, to: null, most: value, last: at });
    } else if (running) running.to = at;
  }
  return found;
}
