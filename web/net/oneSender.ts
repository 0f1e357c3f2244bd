/** How long the window that sends has to hand over before it is taken for hung, milliseconds. */
const HAND_OVER_MS = 2_000;

/** This window's turn to send for a person. */
export interface Turn {
  /** Ends it, e.g. when the person signs out here. */
  end(): void;
  /** Another window asks for the turn: this one ends it and the other goes on. */
  takeOver(): void;
}

interface Told {
  /** It is this window's turn. */
  here(): void;
  /** Another window of this browser has it. */
  elsewhere(): void;
}

/**
 * One window at a time sends for one person, held by a lock of the browser (W3C Web Locks) that a dead window loses by
 * itself. A window asked to hand over ends its link before it lets go; one that is hung is robbed of the lock, and what
 * both might have sent bears the same command id, which the server answers once.
 */
export function takeTurn(person: string, told: Told): Turn {
  if (!("locks" in navigator)) {
    told.here();
    return { end() {}, takeOver() {} };
  }
  const name = `chockside.sender.${person}`;
  const channel = new BroadcastChannel(name);
  let ended = false;
  let letGo: (() => void) | null = null;
  let waiting: AbortController | null = null;

  const hold = () => {
    letGo = null;
    told.here();
    return new Promise<void>((done) => {
      letGo = done;
    });
  };
  const lost = () => {
    letGo = null;
    if (ended) return;
    told.elsewhere();
    // Should the other window close, the turn comes back here.
    queue();
  };
  const queue = () => {
    waiting = new AbortController();
    navigator.locks.request(name, { signal: waiting.signal }, hold).catch(() => {
      if (letGo) lost();
    });
  };

  channel.onmessage = () => {
    if (!letGo || ended) return;
    const free = letGo;
    letGo = null;
    told.elsewhere();
    free();
    queue();
  };
  navigator.locks
    .request(name, { ifAvailable: true }, (lock) => {
      if (lock && !ended) return hold();
      if (!ended) {
        told.elsewhere();
        queue();
      }
      return undefined;
    })
    .catch(() => {
      if (letGo) lost();
    });

  return {
    end() {
      ended = true;
      waiting?.abort();
      letGo?.();
      channel.close();
    },
    takeOver() {
      channel.postMessage("handOver");
      setTimeout(() => {
        if (ended || letGo) return;
        waiting?.abort();
        navigator.locks.request(name, { steal: true }, hold).catch(() => {
          if (letGo) lost();
        });
      }, HAND_OVER_MS);
    },
  };
}
