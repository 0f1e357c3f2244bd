import type { AircraftRecord } from "../aircraft/record.ts";
import type { RecordEvent } from "../protocol/recordEvents.ts";
import type { Deferral, Item } from "../protocol/standing.ts";

/** Closed defects of one aircraft that are kept in the list, the newest. */
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
  deferrals: { at: number; name: string; until: string; reason: string }[];
  /** Null while it is open. `name` and `reason` are null where an older record does not tell them. */
  closed: { at: number; name: string | null; reason: string | null; session: string | null } | null;
}

/** Returns the defects' lives after one more event of the aircraft's record. */
export function livesAfter(
  lives: readonly DefectLife[],
  before: AircraftRecord | null,
  event: RecordEvent,
  after: AircraftRecord,
): readonly DefectLife[] {
  const open = defectsOf(after);
  const had = defectsOf(before);
  if (open.length === 0 && had.length === 0) return lives;
  const written = open.filter(({ no }) => !had.some((d) => d.no === no)).map(begun);
  const next = [...lives, ...written].map((life) => {
    const now = open.find((d) => d.no === life.no);
    if (now) return withDeferral(life, now.item.deferred);
    return life.closed === null && had.some((d) => d.no === life.no)
      ? { ...life, closed: closing(life, event) }
      : life;
  });
  const closed = next.filter((l) => l.closed !== null);
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
    ...{ no, id, words, engine, barsStart, deferrals: [], closed: null },
    written: { at: by.at, name: by.name, session },
  };
}

function withDeferral(life: DefectLife, deferred: Deferral | undefined): DefectLife {
  if (deferred === undefined || life.deferrals.some(({ at }) => at === deferred.by.at)) return life;
  const { by, until, reason } = deferred;
  return { ...life, deferrals: [...life.deferrals, { at: by.at, name: by.name, until, reason }] };
}

function closing(life: DefectLife, { at, actor, fact }: RecordEvent): DefectLife["closed"] {
  if (fact.type !== "contributed") {
    const name = actor.kind === "person" ? actor.name : null;
    return { at, name, reason: fact.type === "ended" ? (fact.reason ?? null) : null, session: null };
  }
  const told = fact.contribution.defectsClosed?.find(({ id }) => id === life.id);
  return {
    at: told?.by.at ?? at,
    name: told?.by.name ?? null,
    reason: told?.reason ?? null,
    session: fact.session,
  };
}
