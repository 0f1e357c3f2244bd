import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");
const starts = (n: number) => `${n} ${plural(n, { one: "start", other: "starts" })}`;
const sessions = (n: number) => `${n} ${plural(n, { one: "session", other: "sessions" })}`;

/** The page of how the starts of the house went. */
export const houseStarts = {
  title: "How starts went",
  lead: (n: number, of: number, from: string) => `${starts(n)} in ${sessions(of)} planned since ${from}, UTC`,
  what: "A start is one engagement of a starter. Returns and rehearsals are not counted.",
  unstarted: (n: number) =>
    `${sessions(n)} engaged no starter. Their holds, refusals and alerts are counted too.`,
  few: (least: number) => `Too few starts: a rate per start needs ${least}. Only counts are shown.`,
  more: (most: number) =>
    `Only the newest ${most} sessions are counted. Older ones of these weeks are left out.`,
  span: "How far back",
  weeks: (n: number) => `${n} weeks`,
  table: "Table (CSV)",
  none: "Nothing to count.",
  week: "Week from",
  startsAs: "Starts",
  caught: "Caught",
  notStarted: "No start",
  byWeek: "Starts by week",
  byPost: "Which posts hold, or are refused",
  post: "Post",
  holds: "Holds",
  held: "Held, min",
  refused: "Refused",
  byHold: "Why starts were held",
  reason: "Reason",
  noReason: "No reason written",
  silent: (posts: string) => `Silent: ${posts}`,
  times: "Times",
  byEquipment: "What delays starts with which equipment",
  equipmentIs:
    "Holds and refusals of the starts in which a piece was used, the most for each start first. It need not be their cause.",
  piece: "Piece",
  byCondition: "What was not met",
  condition: "Condition",
  byRefusal: "Why something was refused",
  byAlert: "Alerts",
  alert: "Alert",
  perStart: "Per start",
  shelved: "Put aside",
  brief: "Brief",
  nuisance: "Nuisance",
  alertsAre: (raised: number, nuisance: number) => `${raised} alerts, ${nuisance} of them a nuisance.`,
  alertsPerStart: (raised: string, nuisance: string) =>
    `${raised} alerts for each start, ${nuisance} of them a nuisance.`,
  nuisanceIs: (seconds: number) =>
    `Nuisance, after ISA-18.2: a post put the alert aside, or it was over in less than ${seconds} s and nobody did more than see it (brief).`,
  byTouch: "Touches to say that a person is there",
  touchesAre: "Counted from one engagement of a starter to the next.",
  engine: "Engine",
  place: (n: number, aircraft: string) => `number ${n} of ${aircraft}`,
  touches: "Touches",
};

export type HouseStartsWords = typeof houseStarts;
