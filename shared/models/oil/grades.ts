import { found, type Outcome, outside, refused } from "../outcome.ts";

/** A grade by its viscosity at 100 °C, mm²/s: at least `from`, and less than `below`. */
export interface HotGrade {
  name: string;
  from: number;
  below: number;
}

/** SAE J300 limits at 100 °C; grade 20 began at 5.6 mm²/s in the 1999 edition. */
export const SAE_J300: readonly HotGrade[] = [
  { name: "20", from: 6.9, below: 9.3 },
  { name: "30", from: 9.3, below: 12.5 },
  { name: "40", from: 12.5, below: 16.3 },
  { name: "50", from: 16.3, below: 21.9 },
  { name: "60", from: 21.9, below: 26.1 },
];

/**
 * Returns the SAE grade of an oil by its viscosity at 100 °C; null when no grade of the table covers it. Range: 0.3 to
 * 1000 mm²/s.
 */
export function saeGrade(mm2sAt100C: number, grades: readonly HotGrade[] = SAE_J300): Outcome<string | null> {
  const why = outside("viscosity at 100 degC", mm2sAt100C, 0.3, 1000, "mm2/s");
  if (why) return refused(why);
  return found(grades.find((g) => mm2sAt100C >= g.from && mm2sAt100C < g.below)?.name ?? null);
}

/** A winter grade: the most centipoise for cranking at a temperature, and for pumping 5 K colder. */
interface WinterGrade {
  name: string;
  crankDegC: number;
  crankMost: number;
}

/** SAE J300 winter grades, thinnest first. */
export const SAE_WINTER: readonly WinterGrade[] = [
  { name: "0W", crankDegC: -35, crankMost: 6200 },
  { name: "5W", crankDegC: -30, crankMost: 6600 },
  { name: "10W", crankDegC: -25, crankMost: 7000 },
  { name: "15W", crankDegC: -20, crankMost: 7000 },
  { name: "20W", crankDegC: -15, crankMost: 9500 },
  { name: "25W", crankDegC: -10, crankMost: 13_000 },
];
const PUMP_MOST = 60_000;
const PUMP_COLDER = 5;

/**
 * Returns the temperatures and centipoise of a winter grade's tests: cranking, and pumping 5 K colder at 60 000 cP at
 * most.
 */
export function winterTest(name: string): Outcome<{
  crank: { degC: number; most: number };
  pump: { degC: number; most: number };
}> {
  const g = SAE_WINTER.find((w) => w.name === name);
  if (!g) return refused(`no winter grade ${name} in SAE J300`);
  return found({
    crank: { degC: g.crankDegC, most: g.crankMost },
    pump: { degC: g.crankDegC - PUMP_COLDER, most: PUMP_MOST },
  });
}

/**
 * The names of one aviation piston oil: SAE, military and commercial grade, SAE J1966 (2011, before it MIL-L-6082)
 * Table 1: straight mineral oil. The commercial number is near the Saybolt seconds at 210 °F.
 */
export interface AviationGrade {
  sae: string;
  military: string;
  commercial: string;
}

export const SAE_J1966: readonly AviationGrade[] = [
  { sae: "30", military: "1065", commercial: "65" },
  { sae: "40", military: "1080", commercial: "80" },
  { sae: "50", military: "1100", commercial: "100" },
  { sae: "60", military: "1120", commercial: "120" },
];

/** Returns the grade by any of its names, e.g. "SAE 50" is also "50", "1100" and "100". */
export function aviationGrade(name: string): Outcome<AviationGrade> {
  const bare = name.replace(/^SAE\s*/i, "").trim();
  // SAE and commercial numbers do not overlap, so a bare number names one grade.
  const grade = SAE_J1966.find((g) => [g.sae, g.military, g.commercial].includes(bare));
  return grade ? found(grade) : refused(`no grade ${name} in SAE J1966`);
}
