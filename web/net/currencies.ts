import type { Currency } from "../../shared/house/currency.ts";
import type { Lapse } from "../../shared/house/lapses.ts";
import { api } from "./app.ts";

export interface CurrencyRow extends Currency {
  revision: number;
}

/** The last day of each kind, by the kind's id. */
export type Dates = Record<string, string>;

const asRead = (revision: number) => ({ "if-match": `"${revision}"` });

/** Requests about what people must keep up. */
export const currencies = {
  kinds: () => api.pages<CurrencyRow>("/api/currencies"),
  add: (entry: Currency) => api.send("POST", "/api/currencies", entry),
  change: ({ id, ...entry }: Currency, revision: number) =>
    api.send("PUT", `/api/currencies/${encodeURIComponent(id)}`, entry, asRead(revision)),
  /** The lapses of each person, for those who plan. */
  lapses: () => api.pages<{ person: string; lapses: Lapse[] }>("/api/people/lapses"),
  own: () => api.pages<Lapse>("/api/me/lapses"),
  dates: async () =>
    Object.assign({}, ...(await api.eachPage<Record<string, Dates>>("/api/people/dates"))) as Record<
      string,
      Dates
    >,
  setDates: (person: string, dates: Dates) => api.send("PUT", `/api/people/${person}/dates`, dates),
};
