import type { SignIns } from "../auth/sign-ins.ts";
import type { Clock, Timers } from "../clock.ts";
import type { SessionLog } from "../sessions/deps.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { EventStore } from "../store/events.ts";
import type { Bus } from "./bus.ts";
import type { PeerPresence } from "./peer-presence.ts";

/** Interval between reads of the database while messages cannot arrive. Milliseconds. */
const LOOK_MS = 500;
/** While messages arrive, every fourth of these reads is made, because a message may be lost. */
const LOOKS_SPARED = 4;

interface FollowDeps {
  bus: Bus;
  store: EventStore;
  sessions: Sessions;
  signIns: SignIns;
  peers: PeerPresence;
  clock: Clock;
  timers: Timers;
  log: SessionLog;
}

/**
 * Keeps this server up to date with what the others record. Resolves after the first read, to a function that stops
 * it.
 */
export async function follow(deps: FollowDeps): Promise<() => void> {
  const { bus, store, sessions, signIns, peers, clock, timers, log } = deps;
  let looking: Promise<void> | null = null;
  let spared = 0;

  bus.listen({
    message(message) {
      switch (message.is) {
        case "moved":
          return void sessions.follow(message.session, message.seq, message.events);
        case "recordMoved":
          return void sessions.followRecord(message.aircraft);
        case "houseMoved":
          return sessions.houseMoved();
        case "unrecorded":
          return sessions.passedOn(message.notice);
        case "signedOut":
          return signIns.endedElsewhere(message.signIn);
        case "heard":
          return peers.heard(message.server, message.sessions, clock.now());
      }
    },
    back: () => {
      sessions.houseMoved();
      void look();
    },
  });

  function look(): Promise<void> {
    looking ??= lookOnce().finally(() => {
      looking = null;
    });
    return looking;
  }

  async function lookOnce(): Promise<void> {
    spared = 0;
    try {
      await sessions.followAll(await store.openHeads());
    } catch (error) {
      log.error({ err: error }, "what other servers recorded could not be read");
    }
  }

  await look();
  let stop = timers.after(LOOK_MS, again);
  function again() {
    spared += 1;
    if (!bus.up || spared >= LOOKS_SPARED) void look();
    stop = timers.after(LOOK_MS, again);
  }
  return () => stop();
}
