import type { AircraftRecord } from "../aircraft/record.ts";
import type { RecordEvent } from "../protocol/recordEvents.ts";
import type { Deferral, Item, Mended } from "../protocol/standing.ts";
import { type LifePicture, picturesAfter } from "./pictures.ts";

/** Closed defects of one aircraft without pictures that are kept in the list, the newest. */
const CLOSED_KEPT = 500;

/** One defect of an aircraft from its writing to its closing. Times are server milliseconds. */
export interface DefectLife {
  /** Its number in the aircraft's record. */
  no: number;
  id: string;
  words: string;
  engine: number | null;
  barsStart: boolean;
  written: { at: number; name: string; session: string | null };
  /** `until`: the last day; `starts`: the starts it was given. At least one of both is known. */
  deferrals: { at: number; name: string; until: string | null; starts: number | null; reason: string }[];
  /** Sessions that have used up a start of the last deferral. */
  startedSince: readonly string[];
  /** The mend, where another person must inspect it. `session`: null when it was entered in the office. */
  mendings: { at: number; name: string; reason: string; session: string | null }[];
  /** Oldest first. */
  pictures: readonly LifePicture[];
  /** Null while it is open. `name` and `reason` are null where an older record does not tell them. */
  closed: {
    at: number;
    name: string | null;
    reason: string | null;
    session: string | null;
    /** Another person than the one who mended it inspected it. */
    inspected: boolean;
  } | null;
}

/** Returns the defects' lives after one more event of the aircraft's record. */
export function livesAfter(
  lives: readonly DefectLife[],
  before: AircraftRecord | null,
  event: RecordEvent,
  after: AircraftRecord,
): readonly DefectLife[] {
  const { fact } = event;
  if (fact.type === "pictured" || fact.type === "pictureRemoved")
    return lives.map((l) => (l.no === fact.no ? { ...l, pictures: picturesAfter(l.pictures, fact) } : l));
  const open = defectsOf(after);
  const had = defectsOf(before);
  if (open.length === 0 && had.length === 0) return lives;
  const written = open
    .filter(({ no }) => !had.some((d) => d.no === no))
    .map((d) => withItem(begun(d), d.item, event));
  const next = [...lives, ...written].map((life) => {
    const now = open.find((d) => d.no === life.no);
    if (now) return withItem(life, now.item, event);
    return life.closed === null && had.some((d) => d.no === life.no)
      ? { ...life, closed: closing(life, event) }
      : life;
  });
  // One with pictures stays: its closing tells how long they are kept.
  const closed = next.filter((l) => l.closed !== null && l.pictures.every((p) => p.removed !== null));
  const dropped = new Set(closed.slice(0, Math.max(0, closed.length - CLOSED_KEPT)));
  return dropped.size === 0 ? next : next.filter((l) => !dropped.has(l));
}

/** Returns how often a defect with these words was written before at the same place of the aircraft. */
export function timesBefore(lives: readonly DefectLife[], life: DefectLife): number {
  return lives.filter(
    (l) => l.no < life.no && l.engine === life.engine && plain(l.words) === plain(life.words),
  ).length;
}

const plain = (words: string): string => words.toLowerCase().replaceAll(/\s+/g, " ").trim();

type DefectItem = Extract<Item, { is: "defect" }>;
type StandingDefect = { no: number; session: string | null; item: DefectItem };

function defectsOf(record: AircraftRecord | null): StandingDefect[] {
  return (record?.items ?? []).flatMap(({ no, session, item }) =>
    item.is === "defect" ? [{ no, session, item }] : [],
  );
}

function begun({ no, session, item }: StandingDefect): DefectLife {
  const { id, words, engine, barsStart, by } = item;
  return {
    ...{ no, id, words, engine, barsStart, deferrals: [], startedSince: [], mendings: [] },
    pictures: [],
    closed: null,
    written: { at: by.at, name: by.name, session },
  };
}

function withItem(life: DefectLife, item: DefectItem, { fact }: RecordEvent): DefectLife {
  const session = fact.type === "contributed" ? fact.session : null;
  const next = withMending(withDeferral(life, item.deferred), item.mended, session);
  const { startedSince = NONE } = item;
  return startedSince.length === next.startedSince.length ? next : { ...next, startedSince };
}

const NONE: readonly string[] = [];

function withMending(life: DefectLife, mended: Mended | undefined, session: string | null): DefectLife {
  if (mended === undefined || life.mendings.at(-1)?.at === mended.by.at) return life;
  const { by, reason } = mended;
  return { ...life, mendings: [...life.mendings, { at: by.at, name: by.name, reason, session }] };
}

function withDeferral(life: DefectLife, deferred: Deferral | undefined): DefectLife {
  if (deferred === undefined || life.deferrals.some(({ at }) => at === deferred.by.at)) return life;
  const { by, until = null, starts = null, reason } = deferred;
  return { ...life, deferrals: [...life.deferrals, { at: by.at, name: by.name, until, starts, reason }] };
}

function closing(life: DefectLife, { at, actor, fact }: RecordEvent): DefectLife["closed"] {
  if (fact.type === "inspected") {
    return { at, name: fact.by.name, reason: fact.reason, session: null, inspected: true };
  }
  if (fact.type !== "contributed") {
    const name = actor.kind === "person" ? actor.name : null;
    const reason = fact.type === "ended" ? (fact.reason ?? null) : null;
    return { at, name, reason, session: null, inspected: false };
  }
  const told = fact.contribution.defectsClosed?.find(({ id }) => id === life.id);
  return {
    at: told?.by.at ?? at,
    name: told?.by.name ?? null,
    reason: told?.reason ?? null,
    session: fact.session,
    inspected: false,
  };
}
