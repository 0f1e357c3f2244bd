/** Every limit and interval of the sockets. The unit is in the name. */
export const LIMITS = {
  pingIntervalMs: 5_000,
  pingTimeoutMs: 4_000,
  /** From the opening of a socket to its sign-in. */
  connectTimeoutMs: 5_000,
  messageBytes: 64 * 1024,
  sockets: 4_000,
  /**
   * Sockets without a sign-in, per address (IPv6: per /64 network) and in all. The rest of `sockets` is kept for people
   * who have signed in. All people behind one proxy share one address, unless the settings name the proxy.
   */
  unauthenticatedPerAddress: 100,
  unauthenticated: 400,
  /** A socket without a sign-in keeps its place for this long when others want it. */
  unauthenticatedMs: 1_000,
  /** Characters of the one packet a socket may send before sign-in, and packets with the answers to heartbeats. */
  handshakeCharacters: 4_096,
  handshakePackets: 4,
  /** Sockets that may end without a sign-in, per address and in all: at once, and how many are earned back per second. */
  failedBurst: 300,
  failedPerSecond: 30,
  allFailedBurst: 600,
  allFailedPerSecond: 100,
  /** Sockets per device and per person. A new one ends the oldest, so that a person can always send a stop. */
  perDevice: 12,
  perPerson: 24,
  /** Messages a socket may send at once, and how many it earns back per second. Stops are not counted. */
  burst: 40,
  perSecond: 20,
  /** Messages a person may send at once over all their sockets, and how many they earn back per second. */
  personBurst: 200,
  personPerSecond: 60,
  /**
   * Stops a person may send at once, and how many they earn back per second. Beyond this, a stop that already stands
   * is not recorded again.
   */
  stopBurst: 100,
  stopsPerSecond: 20,
  /** Sessions that are over and not in memory: how many a person may open at once, and per second after it. */
  readingBurst: 20,
  readingsPerSecond: 0.5,
  beatMs: 2_000,
  /** Panels that come and go within this time are told in one beat. */
  beatSoonMs: 50,
  /** Panels are told at most once in this time that the list of sessions changed. */
  rampMs: 250,
  /** Beats are collected for this long and sent to the other servers together. */
  tellMs: 100,
  /** Interval between checks of the sockets' sign-ins: another process may have ended one. */
  recheckMs: 5_000,
  /** Messages that may wait for a socket before it is closed. The panel reconnects and asks for what it lacks. */
  backlog: 500,
  /** Panels that a fault of a rehearsal cuts off are looked for as often as this. */
  cutsMs: 500,
  /** A disconnected panel waits this long, plus a random part of its own, before it reconnects. */
  retryAfterMs: 1_000,
} as const;
