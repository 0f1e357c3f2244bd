/** Somebody unknown who holds a place. */
export interface Guest {
  /** Server time of arrival. */
  since: number;
  cut(): void;
}

interface PlaceLimits {
  perNetwork: number;
  all: number;
  /** A guest keeps its place for this long when others want it. Milliseconds. */
  ms: number;
}

/**
 * Bounded places for connections without a sign-in, by network. When a newcomer finds none, the oldest of its own network
 * gives way, or of the network with the most guests: nobody can take the places of all others.
 */
export class Places {
  readonly #limits: PlaceLimits;
  /** Oldest first in each network. */
  readonly #guests = new Map<string, Set<Guest>>();
  #count = 0;

  constructor(limits: PlaceLimits) {
    this.#limits = limits;
  }

  /** Returns true when there is a place. Cuts another guest to make one if it can. */
  room(network: string, now: number): boolean {
    const own = this.#guests.get(network)?.size ?? 0;
    if (own >= this.#limits.perNetwork) return this.#giveWay(network, now);
    if (this.#count < this.#limits.all) return true;
    let most = "";
    let size = 0;
    for (const [of, guests] of this.#guests) if (guests.size > size) [most, size] = [of, guests.size];
    return this.#giveWay(most, size > own + 1 ? Number.POSITIVE_INFINITY : now);
  }

  /** Takes a guest in. Returns what to call when it leaves or is known: true the first time. */
  take(network: string, guest: Guest): () => boolean {
    this.#guests.set(network, (this.#guests.get(network) ?? new Set()).add(guest));
    this.#count += 1;
    return () => {
      const all = this.#guests.get(network);
      if (!all?.delete(guest)) return false;
      this.#count -= 1;
      if (all.size === 0) this.#guests.delete(network);
      return true;
    };
  }

  #giveWay(network: string, now: number): boolean {
    const [oldest] = this.#guests.get(network) ?? [];
    if (!oldest || now - oldest.since < this.#limits.ms) return false;
    oldest.cut();
    return true;
  }
}
