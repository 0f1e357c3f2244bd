import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");

/** The wall board: the ramp on a large screen. */
export const board = {
  title: "Wall board",
  aircraft: "Aircraft, those that need a person first",
  none: "No aircraft is being started",
  notFetched: "Engines not loaded",
  more: (n: number) =>
    `${n} ${plural(n, { one: "more aircraft is", other: "more aircraft are" })} not in sight: see the ramp`,
  /** The distance from which the smallest words can be read, in metres. */
  readFrom: (m: number) => `Can be read from ${m} m`,
  old: (time: string) => `Old: last renewed ${time} ago`,
  never: "Nothing heard yet",
};
