import type { Action } from "../../protocol/commands.ts";
import type { FactOf, FactType } from "../../protocol/events.ts";
import { POSTS } from "../../protocol/posts.ts";
import type { RecordFact } from "../../protocol/recordEvents.ts";
import type { Item } from "../../protocol/standing.ts";
import type { Written } from "./written.ts";

/** A fact's addition to the writings: a kind, and the members that differ from those of an empty one. */
export type Part = Pick<Written, "kind"> & Partial<Pick<Written, "engine" | "people" | "words" | "refused">>;

type Finders = { [T in FactType]: ((fact: FactOf<T>) => Part[]) | null };

/** Finds the writings in each kind of fact; null for a fact in which nobody writes. */
export const IN_FACT: Finders = {
  planned: ({ place, crew, orderReason }) => [
    { kind: "plan", words: place, people: POSTS.flatMap((post) => crew[post]?.name ?? []) },
    ...reason(orderReason),
  ],
  planAmended: (fact) => reason(fact.reason),
  equipmentShown: null,
  stageReached: (fact) => reason(fact.reason),
  briefed: null,
  postTaken: () => [{ kind: "post" }],
  postOffered: null,
  postLeft: (fact) => reason(fact.reason),
  sent: ({ kind, note, engine = null }) => {
    const stop = kind === "hold" || kind === "cut" || kind === "fire" || kind === "turning";
    return written(note).map((words) => ({ kind: stop ? "stop" : "note", words, engine }));
  },
  answered: ({ note, engine }) => noted(note, engine),
  late: null,
  clearanceVoid: null,
  requestWithdrawn: null,
  starterCooled: null,
  reading: null,
  voltTraceGiven: null,
  checked: ({ note }) => noted(note),
  cardAnswered: ({ note, engine }) => noted(note, engine),
  cardRead: null,
  alertRaised: null,
  alertAcknowledged: null,
  alertEnded: null,
  alertReset: null,
  alertShelved: null,
  alertUnshelved: null,
  alertUnsuppressed: null,
  alertAgain: null,
  alertWidened: null,
  present: null,
  presenceLapsed: null,
  silenceHeld: null,
  delivered: null,
  abandonAsked: (fact) => reason(fact.reason),
  overrideAsked: (fact) => reason(fact.reason, fact.engine),
  overrideGiven: (fact) => reason(fact.reason),
  overrideEnded: null,
  bladesCounted: null,
  weatherRead: null,
  flashSeen: null,
  runUpRead: null,
  defectWritten: ({ words, engine }) => defect(words, engine),
  defectClosed: (fact) => defect(fact.reason),
  defectMended: (fact) => defect(fact.reason),
  drillStarted: null,
  drillStepped: ({ note }) => noted(note),
  drillEnded: ({ outcome }) => written(outcome).map((words) => ({ kind: "drill", words })),
  exceeded: null,
  coolDownCut: null,
  refused: ({ action, refusal: { reason, engine = null, unmet = [] } }) => [
    {
      kind: "refusal",
      engine,
      words: inAction(action),
      refused: { reason, conditions: unmet.map(({ id }) => id) },
    },
  ],
  aircraftKnown: null,
  fieldKnown: null,
  supervisesAlso: null,
  fireOutLapsed: null,
  instrumentsRead: null,
  stationRead: null,
  rehearsed: null,
  restarted: null,
  clockStepped: null,
};

type RecordFinders = {
  [T in RecordFact["type"]]: ((fact: Extract<RecordFact, { type: T }>) => Part[]) | null;
};

/** Finds the same in the facts of an aircraft's own record. What a session contributes stands in the session. */
export const IN_RECORD_FACT: RecordFinders = {
  opened: null,
  contributed: null,
  reported: ({ item }) => inItem(item),
  ended: (fact) => reason(fact.reason),
  deferred: ({ deferral }) => defect(deferral.reason),
  mended: ({ mended }) => defect(mended.reason),
  inspected: (fact) => defect(fact.reason),
  pictured: null,
  pictureRemoved: (fact) => defect(fact.reason),
  located: null,
};

/** Returns the written words in a list; an empty list for none. */
const written = (words: string | undefined): string[] => (words?.trim() ? [words] : []);

const reason = (words: string | undefined, engine: number | null = null): Part[] =>
  written(words).map((w) => ({ kind: "reason", words: w, engine }));

const noted = (words: string | undefined, engine: number | null = null): Part[] =>
  written(words).map((w) => ({ kind: "note", words: w, engine }));

const defect = (words: string, engine: number | null = null): Part[] =>
  written(words).map((w) => ({ kind: "defect", words: w, engine }));

function inItem(item: Item): Part[] {
  if (item.is === "defect") return defect(item.words, item.engine);
  if (item.is === "hold") return written(item.note ?? undefined).map((words) => ({ kind: "stop", words }));
  return [];
}

/** Returns the words that a person wrote in an action that was refused, or null. */
function inAction(action: Action): string | null {
  for (const key of ["note", "reason", "words", "outcome"] as const) {
    const words = (action as Partial<Record<typeof key, unknown>>)[key];
    if (typeof words === "string" && words.trim() !== "") return words;
  }
  return null;
}
