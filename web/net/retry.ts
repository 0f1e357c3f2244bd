/**
 * Reconnection settings. Attempts start soon and repeat often: a crew waits, and an attempt costs a restarted server
 * very little. Delays vary by half, so that the panels of a ramp do not all connect at once.
 */
export const RETRY = {
  /** Milliseconds before the first attempt, and the maximum before a later one. */
  reconnectionDelay: 80,
  reconnectionDelayMax: 160,
  /** Longest duration of one attempt, milliseconds. */
  timeout: 10_000,
};
