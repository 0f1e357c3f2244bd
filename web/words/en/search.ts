import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");

/** The page that searches everything written. */
export const search = {
  title: "Search",
  lead: "Everything written in the records, times by the server in UTC. Rehearsals are left out.",
  words: "Words, or how they begin",
  narrow: "Narrow it",
  kind: "Kind",
  ofAircraft: "Aircraft",
  from: "From day",
  to: "To day",
  any: "any",
  search: "Search",
  found: "What was found, the newest first",
  none: "Nothing found.",
  more: "Show more",
  unread: (n: number) =>
    `The search has yet to read ${n} ${plural(n, { one: "session", other: "sessions" })}: more may be found in a while.`,
  kinds: {
    plan: "Plan",
    post: "Post taken",
    note: "Note",
    stop: "Stop",
    reason: "Reason",
    refusal: "Refusal",
    defect: "Defect",
    drill: "Drill's end",
  },
  engineOf: (n: number, aircraft: string) => `Number ${n} of ${aircraft}`,
  record: "Record",
  openRecord: (aircraft: string, day: string) => `Open the record of ${aircraft}, ${day}`,
  aircraft: "Aircraft",
  openAircraft: (aircraft: string) => `Open the page of ${aircraft}`,
};

export type SearchWords = typeof search;
