/**
 * How a panel calls again when its link is gone. Soon and often: a crew waits, and each call costs a server that is
 * back next to nothing. The waits scatter by half, so that a ramp full of panels does not call in one moment.
 */
export const RETRY = {
  /** Milliseconds before the first call, and at most before a later one. */
  reconnectionDelay: 250,
  reconnectionDelayMax: 500,
  /** How long a call may take. */
  timeout: 10_000,
};
