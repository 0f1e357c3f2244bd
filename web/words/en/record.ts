import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");

/** Words of the record's page. */
export const record = {
  title: "Record",
  titleOf: (aircraft: string) => `Record: ${aircraft}`,
  count: (n: number) => `${n} ${plural(n, { one: "event", other: "events" })}, times by the server in UTC`,
  print: "Print, short (PDF)",
  printFull: "Print, full log (PDF)",
  forms: { ndjson: "Evidence (NDJSON)", json: "JSON", csv: "Table (CSV)" },
  session: "To the session",
  history: "Aircraft's history",
  exchangeChart: "Message sequence chart",
  exchangeRegion: "Message sequence",
};
