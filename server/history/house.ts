import { houseFigures } from "../../shared/history/house/figures.ts";
import type { HouseFigures } from "../../shared/history/house/schema.ts";
import { weeksBefore } from "../../shared/history/house/weeks.ts";
import { HOUSE_SESSIONS, type StartHistories } from "./starts.ts";

/** The house's figures, and how far back they were read. */
export interface HouseHistory extends HouseFigures {
  from: number;
  to: number;
  /** Most sessions that are read, and whether older ones of these weeks were left out. */
  most: number;
  more: boolean;
}

/** Returns how the starts of the last weeks went, this week included. */
export async function houseHistory(
  starts: Pick<StartHistories, "since">,
  now: number,
  count: number,
): Promise<HouseHistory> {
  const weeks = weeksBefore(now, count);
  const from = weeks[0] ?? now;
  const { sessions, more } = await starts.since(from);
  // An engine is named by the place of its newest start.
  const byTime = [...sessions].reverse();
  return { from, to: now, most: HOUSE_SESSIONS, more, ...houseFigures(byTime, weeks) };
}
