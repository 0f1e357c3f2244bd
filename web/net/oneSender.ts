/** Time the sending window has to hand over before it is considered hung, milliseconds. */
const HAND_OVER_MS = 2_000;

/** This window's turn to send for a person. */
export interface Turn {
  /** Ends the turn, e.g. when the person signs out here. */
  end(): void;
  /** Asks the window that has the turn to hand over, and takes the turn by force if it does not answer. */
  takeOver(): void;
}

interface TurnListener {
  /** Called when this window gets the turn. */
  here(): void;
  /** Called when another window of this browser has the turn. */
  elsewhere(): void;
}

/**
 * Requests the turn to send for one person: only one window at a time sends. The turn is a lock of the browser (W3C
 * Web Locks), which is released when its window dies. A window that is asked to hand over closes its connection
 * first; from a hung window the lock is taken by force. Commands that both windows may have sent have the same id, so
 * the server executes each once.
 */
export function takeTurn(person: string, listener: TurnListener): Turn {
  if (!("locks" in navigator)) {
    listener.here();
    return { end() {}, takeOver() {} };
  }
  const name = `chockside.sender.${person}`;
  const channel = new BroadcastChannel(name);
  let ended = false;
  let letGo: (() => void) | null = null;
  let waiting: AbortController | null = null;

  const hold = () => {
    letGo = null;
    listener.here();
    return new Promise<void>((done) => {
      letGo = done;
    });
  };
  const lost = () => {
    letGo = null;
    if (ended) return;
    listener.elsewhere();
    // Queue again: when the other window closes, the turn returns here.
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
    listener.elsewhere();
    free();
    queue();
  };
  navigator.locks
    .request(name, { ifAvailable: true }, (lock) => {
      if (lock && !ended) return hold();
      if (!ended) {
        listener.elsewhere();
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
