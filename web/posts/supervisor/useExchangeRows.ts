import { useRef } from "react";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { type ExchangeRow, exchangeRows } from "../../../shared/paper/exchange.ts";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import type { Say } from "../../../shared/words/say.ts";

interface Kept {
  events: readonly SessionEvent[];
  rows: readonly ExchangeRow[];
  say: Say;
  units: UnitChoice;
  type: AircraftType;
}

/** Returns the rows of the exchange chart. When events were only added at the end, it words only these. */
export function useExchangeRows(
  events: readonly SessionEvent[],
  say: Say,
  units: UnitChoice,
  type: AircraftType,
): readonly ExchangeRow[] {
  const kept = useRef<Kept>(null);
  const before = kept.current;
  if (before?.events === events && isSame(before, { say, units, type })) return before.rows;
  const grown = before && isSame(before, { say, units, type }) && isBegunBy(events, before.events);
  const rows = grown
    ? [...before.rows, ...exchangeRows(events, say, units, type, before.events.at(-1)?.seq)]
    : exchangeRows(events, say, units, type);
  kept.current = { events, rows, say, units, type };
  return rows;
}

const isSame = (a: Kept, b: Omit<Kept, "events" | "rows">) =>
  a.say === b.say && a.units === b.units && a.type === b.type;

/** True when the list begins with all of the other list. Both are in order and without gaps between the two ends. */
const isBegunBy = (events: readonly SessionEvent[], begin: readonly SessionEvent[]) =>
  events[0] === begin[0] && events[begin.length - 1] === begin.at(-1);
