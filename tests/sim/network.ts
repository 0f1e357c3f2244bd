import type { Chance } from "./chance.ts";

/** The state of the network: chances per message, and the longest delay in milliseconds. */
export interface Weather {
  loss: number;
  duplication: number;
  maxDelay: number;
}

interface Parcel {
  at: number;
  order: number;
  link: number;
  deliver: () => void;
}

/**
 * Messages under way. Each gets a delay of its own, so that later ones overtake earlier ones; some are lost, some
 * arrive twice. Messages on a link that breaks never arrive.
 */
export class Network {
  #under: Parcel[] = [];
  #sent = 0;
  readonly #chance: Chance;
  weather: Weather;

  constructor(chance: Chance, weather: Weather) {
    this.#chance = chance;
    this.weather = weather;
  }

  /** Sends a message over a link. */
  send(now: number, link: number, deliver: () => void): void {
    if (this.#chance.is(this.weather.loss)) return;
    const copies = this.#chance.is(this.weather.duplication) ? 2 : 1;
    for (let i = 0; i < copies; i += 1) {
      this.#sent += 1;
      const at = now + 1 + this.#chance.below(this.weather.maxDelay);
      this.#under.push({ at, order: this.#sent, link, deliver });
    }
  }

  cut(link: number): void {
    this.#under = this.#under.filter((p) => p.link !== link);
  }

  /** Delivers the messages that are due by `now`, in order of arrival. */
  arrive(now: number): void {
    const due = this.#under.filter((p) => p.at <= now).sort((a, b) => a.at - b.at || a.order - b.order);
    if (due.length === 0) return;
    this.#under = this.#under.filter((p) => p.at > now);
    for (const parcel of due) parcel.deliver();
  }
}
