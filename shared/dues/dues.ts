import type { HouseAircraft } from "../house/aircraft.ts";
import type { Currency } from "../house/currency.ts";
import { DAY_MS, ENDING_DAYS, endOf, lastDaysOf } from "../house/due.ts";
import type { HouseEquipment } from "../house/equipment.ts";
import type { OverdueRules } from "../house/house.ts";
import { type Kept, neededOf } from "../house/lapses.ts";
import { bladesDue } from "../models/bladeCount.ts";
import { bladeRuleOf } from "../models/bladeRules.ts";
import type { DueDate } from "../protocol/equipmentKinds.ts";
import type { Post } from "../protocol/posts.ts";
import type { EngineHistory } from "../protocol/standing.ts";
import type { AircraftType } from "../types/schema.ts";
import type { Inspection } from "./inspection.ts";

/** Something that has a last day or a last hour. */
export type Due = {
  /** Identifies it as long as the same thing is due of the same person, piece or aircraft. */
  key: string;
  /** Server milliseconds after its last day; null when it has no date, or when nobody knows it. */
  until: number | null;
  is: "over" | "soon" | "later";
} & (
  | { of: "person"; person: string; who: string; name: string; post: Post; bars: boolean }
  | { of: "equipment"; label: string; name: string; date: DueDate; bars: boolean }
  | {
      of: "inspection";
      id: string;
      aircraft: string;
      engine: number | null;
      name: string;
      source: string;
      by: Inspection["every"]["by"];
      /** Hours left, negative when over; null for an inspection not by hours, and when the hours are not known. */
      hoursLeft: number | null;
      /** Starts left in the same way. */
      startsLeft: number | null;
    }
  /** Propellers to turn by blades before the next start, by the time since each engine ran, whatever the air. */
  | { of: "blades"; aircraft: string; engines: number[] }
);

/** The facts from which dues are worked out. */
export interface DuesFrom {
  currencies: readonly Currency[];
  people: readonly { id: string; name: string; kept: Kept }[];
  equipment: readonly HouseEquipment[];
  overdue: OverdueRules;
  inspections: readonly Inspection[];
  aircraft: readonly {
    entry: HouseAircraft;
    type: AircraftType | null;
    engines: readonly EngineHistory[];
    starts: KnownStarts;
  }[];
}

/** Starts of an aircraft that are known, and the moment from which all of them are; null: from the first one. */
export interface KnownStarts {
  from: number | null;
  each: readonly { at: number; n: number; session: string }[];
}

/** Returns everything of the house that has a last day or hour, what is over first, then by day. */
export function duesOf(from: DuesFrom, now: number): Due[] {
  const all = [
    ...from.people.flatMap((person) => ofPerson(from.currencies, person, now)),
    ...from.equipment.flatMap((piece) => ofEquipment(piece, from.overdue, now)),
    ...from.inspections.flatMap((inspection) => ofInspection(inspection, from.aircraft, now)),
    ...from.aircraft.flatMap((one) => ofBlades(one, now)),
  ];
  return all.sort(foremost);
}

/** Compares two dues: what is over comes first, then the earlier day. */
export function foremost(a: Due, b: Due): number {
  return RANK[a.is] - RANK[b.is] || dayOf(a) - dayOf(b) || (a.key < b.key ? -1 : 1);
}

const RANK = { over: 0, soon: 1, later: 2 } as const;

/** Without a day, what is over comes first and the rest last. */
const dayOf = ({ until, is }: Due): number => until ?? (is === "over" ? 0 : Number.MAX_SAFE_INTEGER);

/** Returns how a moment stands that is shown some days before. A moment that nobody knows counts as over. */
function standing(until: number | null, aheadDays: number, now: number): Due["is"] {
  if (until === null || until <= now) return "over";
  return until - now <= aheadDays * DAY_MS ? "soon" : "later";
}

function ofPerson(kinds: readonly Currency[], person: DuesFrom["people"][number], now: number): Due[] {
  return neededOf(kinds, person.kept).map(({ post, kind, until, bars }) => ({
    of: "person",
    key: `person ${person.id} ${post} ${kind.id}`,
    ...{ until, is: standing(until, ENDING_DAYS, now), bars },
    ...{ person: person.id, who: person.name, name: kind.name, post },
  }));
}

function ofEquipment(piece: HouseEquipment, rules: OverdueRules, now: number): Due[] {
  // A piece out of service is judged when it comes back.
  if (piece.out) return [];
  return lastDaysOf(piece).map(({ date, until: day }) => {
    const until = day === null ? null : endOf(day);
    return {
      of: "equipment",
      key: `equipment ${piece.id} ${date}`,
      ...{ until, is: standing(until, ENDING_DAYS, now), bars: rules[piece.kind] === "bars" },
      ...{ label: piece.id, name: piece.name, date },
    };
  });
}

function ofInspection(inspection: Inspection, aircraft: DuesFrom["aircraft"], now: number): Due[] {
  const { id, engine, name, source, every, last } = inspection;
  const on = aircraft.find(({ entry }) => entry.id === inspection.aircraft);
  if (inspection.retired || !on || on.entry.retired) return [];
  const common = { of: "inspection" as const, key: `inspection ${id}`, id, aircraft: inspection.aircraft };
  const about = { engine, name, source, by: every.by, hoursLeft: null, startsLeft: null };
  if (every.by === "days") {
    const until = last === null ? null : endOf(last.day) + every.days * DAY_MS;
    return [{ ...common, ...about, until, is: standing(until, every.ahead, now) }];
  }
  if (every.by === "starts") {
    const startsLeft = startsLeftOf(inspection, every.starts, on.starts);
    return [{ ...common, ...about, until: null, is: counted(startsLeft, every.ahead), startsLeft }];
  }
  const fitted = on.entry.fitted.find(({ n }) => n === engine);
  const hours = fitted?.[every.part].hours ?? null;
  const left = last?.hours == null || hours === null ? null : last.hours + every.hours - hours;
  return [{ ...common, ...about, until: null, is: counted(left, every.ahead), hoursLeft: left }];
}

/** Returns how something stands of which so much is left. What nobody knows counts as over. */
function counted(left: number | null, ahead: number): Due["is"] {
  if (left === null || left <= 0) return "over";
  return left <= ahead ? "soon" : "later";
}

/**
 * Returns the starts left; null when nobody knows. Starts on the day on which it was done count: nobody knows whether
 * they came before it.
 */
function startsLeftOf(
  { last, engine }: Inspection,
  every: number,
  { from, each }: KnownStarts,
): number | null {
  if (last === null) return null;
  const since = Date.parse(last.day);
  if (from !== null && since < from) return null;
  const made = each.filter(({ at, n }) => at >= since && (engine === null || n === engine));
  return every - (engine === null ? new Set(made.map((s) => s.session)).size : made.length);
}

function ofBlades({ entry, type, engines }: DuesFrom["aircraft"][number], now: number): Due[] {
  if (!type || entry.retired) return [];
  const { rule } = bladeRuleOf(type.bladeCount);
  const due = type.engines.flatMap(({ n }) => {
    const ran = engines.find((e) => e.n === n)?.lastRanAt ?? null;
    const stood = ran === null ? null : { value: Math.max(0, now - ran) / 1000, unit: "s" as const };
    const found = bladesDue(rule, type.propeller, stood, null);
    return found.ok && !found.value.due ? [] : [n];
  });
  if (due.length === 0) return [];
  return [
    { of: "blades", key: `blades ${entry.id}`, until: null, is: "soon", aircraft: entry.id, engines: due },
  ];
}
