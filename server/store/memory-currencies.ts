import type { StartAt } from "../../shared/house/starts.ts";
import type { CurrencyDate, CurrencyStore } from "./currencies.ts";

export class MemoryCurrencies implements CurrencyStore {
  #dates: CurrencyDate[] = [];
  #starts: StartAt[] = [];

  async dates(): Promise<CurrencyDate[]> {
    return this.#dates;
  }

  async setDates(personId: string, dates: Readonly<Record<string, string>>): Promise<void> {
    const own = Object.entries(dates).map(([kind, until]) => ({ personId, kind, until }));
    this.#dates = [...this.#dates.filter((d) => d.personId !== personId), ...own];
  }

  async lastStarts(): Promise<StartAt[]> {
    return this.#starts;
  }

  async noteStarts(starts: readonly StartAt[]): Promise<void> {
    for (const start of starts) {
      const same = (s: StartAt) => s.personId === start.personId && s.post === start.post;
      if (this.#starts.some((s) => same(s) && s.at >= start.at)) continue;
      this.#starts = [...this.#starts.filter((s) => !same(s)), start];
    }
  }

  erase(personId: string): void {
    this.#dates = this.#dates.filter((d) => d.personId !== personId);
    this.#starts = this.#starts.filter((s) => s.personId !== personId);
  }
}
