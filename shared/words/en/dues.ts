import { pluralsOf } from "../plural.ts";

const plural = pluralsOf("en");
const starts = (n: number) => `${n} ${plural(n, { one: "start", other: "starts" })}`;

/** Words of the dues: on the page, on paper and in a calendar. */
export const dues = {
  atPost: (name: string, post: string) => `${name}, ${post}`,
  dated: (name: string, date: string) => `${name}: ${date}`,
  onEngine: (name: string, n: number) => `${name}, engine ${n}`,
  bladesOne: (engine: string) => `Turn the propeller by its blades: engine ${engine}`,
  blades: (engines: string) => `Turn propellers by their blades: engines ${engines}`,
  noDate: "no date",
  overSince: (day: string) => `over since ${day}`,
  until: (day: string) => `until ${day}`,
  hoursOver: (hours: string) => `over by ${hours} h`,
  hoursLeft: (hours: string) => `${hours} h left`,
  hoursNotKnown: "hours not known",
  startsOver: (n: number) => `over by ${starts(n)}`,
  startsLeft: (n: number) => `${starts(n)} left`,
  startsNotKnown: "starts not known",
  neverDone: "never entered as done",
  beforeStart: "before the next start",
  bars: "bars",
  is: { over: "Over", soon: "Soon", later: "Later" },
  whom: "Whom or what",
  what: "What",
  when: "Last day, hours or starts",
  source: "Required by",
  title: "Dues",
  about: "Everything of this house that has a last day or a last hour.",
  caution:
    "A list to remind. Whether a person, an aircraft or a piece may be used is for local rules and licensed people to decide.",
  calendar: "Chockside dues",
};

export type DuesWords = typeof dues;
