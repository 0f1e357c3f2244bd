import type { DueDate, EquipmentKind } from "../protocol/equipmentKinds.ts";
import type { HouseEquipment, OutOfService } from "./equipment.ts";
import type { LapseRule } from "./lapseRule.ts";

export const DAY_MS = 24 * 3_600_000;

/** Days before its end at which a date is shown as ending. */
export const ENDING_DAYS = 30;

/** Returns the moment after the last millisecond of a day, UTC. */
export const endOf = (day: string): number => Date.parse(day) + DAY_MS;

/** Returns how a last day stands: over, ending within 30 days, or good. */
export function dateIs(until: string, now: number): "over" | "ending" | "good" {
  const left = endOf(until) - now;
  if (left <= 0) return "over";
  return left <= ENDING_DAYS * DAY_MS ? "ending" : "good";
}

/** A reason not to use a piece of equipment, or a warning before it is used. */
export type EquipmentFault =
  | { is: "out"; cause: OutOfService["cause"]; words: string }
  | { is: "overdue"; date: DueDate; until: string; bars: boolean }
  /** A date that this kind must have is not known. */
  | { is: "noDate"; date: DueDate; bars: boolean }
  | { is: "ending"; date: DueDate; until: string };

/** The dates that each kind must have: a date nobody knows counts as over. */
const NEEDED: Readonly<Record<EquipmentKind, readonly DueDate[]>> = {
  cart: [],
  extinguisher: ["weighedUntil", "testedUntil"],
  chocks: [],
  towBar: [],
  headset: [],
};

/** Returns the last days that a piece has or must have; `until` is null for one that must be known and is not. */
export function lastDaysOf(entry: HouseEquipment): { date: DueDate; until: string | null }[] {
  const days: { date: DueDate; until: string | null }[] = [
    ...(entry.kind === "extinguisher" ? [{ date: "weighedUntil" as const, until: entry.weighedUntil }] : []),
    { date: "testedUntil", until: entry.testedUntil },
  ];
  return days.filter(({ date, until }) => until !== null || NEEDED[entry.kind].includes(date));
}

/** Returns everything that speaks against a piece of equipment now, the worst first. */
export function equipmentFaultsNow(
  entry: HouseEquipment,
  rules: Readonly<Record<EquipmentKind, LapseRule>>,
  now: number,
): EquipmentFault[] {
  const bars = rules[entry.kind] === "bars";
  const faults = lastDaysOf(entry).flatMap(({ date, until }): EquipmentFault[] => {
    if (until === null) return [{ is: "noDate", date, bars }];
    const is = dateIs(until, now);
    if (is === "good") return [];
    return is === "over" ? [{ is: "overdue", date, until, bars }] : [{ is: "ending", date, until }];
  });
  const worst = [...faults.filter((f) => f.is !== "ending"), ...faults.filter((f) => f.is === "ending")];
  return entry.out ? [{ is: "out", ...entry.out }, ...worst] : worst;
}

/** Returns true for a fault with which the equipment is not used. */
export function barsUse(fault: EquipmentFault): boolean {
  switch (fault.is) {
    case "out":
      return true;
    case "overdue":
    case "noDate":
      return fault.bars;
    case "ending":
      return false;
  }
}
