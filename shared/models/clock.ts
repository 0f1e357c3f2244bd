/**
 * One exchange with the server, milliseconds: T1 sent by the panel, T2 received and T3 answered by the server, T4
 * received by the panel.
 */
export interface Exchange {
  t1: number;
  t2: number;
  t3: number;
  t4: number;
}

/** Offset (server minus panel) and round-trip delay, milliseconds. The true offset lies within offset ± delay / 2. */
export interface ClockSample {
  offset: number;
  delay: number;
}

/**
 * Returns the sample of one exchange (RFC 5905 section 8): offset = ((T2 - T1) + (T3 - T4)) / 2, delay = (T4 - T1) -
 * (T3 - T2). Null when a clock ran backwards within the exchange: T4 before T1, T3 before T2, or a negative delay.
 */
export function clockSample({ t1, t2, t3, t4 }: Exchange): ClockSample | null {
  const delay = t4 - t1 - (t3 - t2);
  if (t4 < t1 || t3 < t2 || delay < 0) return null;
  return { offset: (t2 - t1 + (t3 - t4)) / 2, delay };
}

const SAMPLES_KEPT = 8;

/** Returns the samples with one more, at most the last eight (clock filter, RFC 5905 section 10). */
export function keepSample(samples: readonly ClockSample[], sample: ClockSample): ClockSample[] {
  return [...samples, sample].slice(-SAMPLES_KEPT);
}

/** Returns the sample with the least delay, which has the least error; null when there is none. */
export function bestSample(samples: readonly ClockSample[]): ClockSample | null {
  return samples.reduce<ClockSample | null>((best, s) => (best && best.delay <= s.delay ? best : s), null);
}
