import { between } from "../../shared/partners/chance.ts";
import type { Wear } from "../../shared/partners/script.ts";

/** One start of the invented year. */
export interface YearStart {
  aircraft: string;
  /** Server milliseconds of the plan. */
  at: number;
  seed: number;
  wear: Wear;
}

const DAY_MS = 86_400_000;
const STARTS = 28;
/** Days between two starts of one aircraft, with some more or fewer. */
const APART = 12;

/** Seconds with which oil pressure rises in a sound engine, and how far chance moves it from start to start. */
const OIL = { sound: 6, spread: 0.8 } as const;

/**
 * Returns the starts of an invented year that ends the day before `now`, oldest first. Number 2 of the twin takes
 * longer to oil pressure from its 23rd start on. Of the three-engined aircraft, the starter of number 3 turns longer
 * from the 21st on, and the power source sags further under load from then on too. The same seed gives the same year.
 */
export function yearStarts(now: number, seed: number): YearStart[] {
  const day = Math.floor(now / DAY_MS) * DAY_MS;
  return Array.from({ length: STARTS }, (_, i) => i)
    .flatMap((i) => ["QX-PEN", "QX-CTD"].map((aircraft) => yearStart(aircraft, i, day, seed)))
    .sort((a, b) => a.at - b.at);
}

function yearStart(aircraft: string, i: number, today: number, seed: number): YearStart {
  const draw = (from: number, to: number, ...words: (string | number)[]) =>
    between(from, to, seed, aircraft, i, ...words);
  const hours = draw(7, 16, "hour");
  const ago = (STARTS - i) * APART - Math.floor(draw(0, 5, "day"));
  const at = Math.round(today - ago * DAY_MS + hours * 3_600_000);
  // Coldest in January: a field in the north, by the day of the year.
  const season = Math.cos((2 * Math.PI * (at / DAY_MS - 20)) / 365.25);
  const airC = Math.round(12 - 5 * season + draw(-3, 3, "air"));
  const twin = aircraft === "QX-PEN";
  const since = (first: number) => Math.max(0, i + 1 - first);
  const oil = (n: number) =>
    OIL.sound + draw(-OIL.spread, OIL.spread, "oil", n) + (twin && n === 2 ? 0.9 * since(22) : 0);
  return {
    aircraft,
    at,
    seed: Math.floor(draw(1, 1_000_000, "seed")),
    wear: {
      oilS: { 1: oil(1), 2: oil(2), 3: oil(3) },
      crank: twin ? {} : { 3: 1 + 0.12 * since(20) },
      sagV: twin ? 0 : 0.35 * since(20),
      airC,
    },
  };
}
