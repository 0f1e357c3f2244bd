/** Every bound and timing of the sockets, with its unit. */
export const LIMITS = {
  pingIntervalMs: 5_000,
  pingTimeoutMs: 4_000,
  /** From the opening of a socket to its sign-in. */
  connectTimeoutMs: 5_000,
  messageBytes: 64 * 1024,
  sockets: 4_000,
  /** Sockets from one address that have not signed in yet. A proxy is one address for everybody behind it. */
  strangersPerAddress: 100,
  /** Sockets of one device and of one person; a new one ends the oldest, so that a stop always finds a way. */
  perDevice: 12,
  perPerson: 24,
  /** Messages a socket may send at once, and how many it earns back in a second. Stops are not counted. */
  burst: 40,
  perSecond: 20,
  /** Messages one person may send by all their sockets together, and how many they earn back in a second. */
  personBurst: 200,
  personPerSecond: 60,
  /** Stops a person may send at once, and earns back in a second, before those that stand are not recorded again. */
  stopBurst: 100,
  stopsPerSecond: 20,
  beatMs: 2_000,
  /** Other servers are told together whom this one heard at the beats of so long. */
  tellMs: 100,
  /** How often sockets' sign-ins are looked up again: another process may have ended one. */
  recheckMs: 5_000,
  /** Messages that may wait for a socket before it is cut: it comes back and asks for what it lacks. */
  backlog: 500,
  /** A panel told to come back waits this long, plus a chance part of its own. */
  retryAfterMs: 1_000,
} as const;
