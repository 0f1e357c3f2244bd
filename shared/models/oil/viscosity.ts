import { found, type Outcome, outside, refused } from "../outcome.ts";

/** Kinematic viscosity, mm²/s, at a temperature, °C. */
export interface ViscosityPoint {
  degC: number;
  mm2s: number;
}

/** A straight line of ASTM D341: log10 log10 Z = A − B·log10 T, T in kelvins by `zeroCelsius`. */
export interface ViscosityLine {
  a: number;
  b: number;
  zeroCelsius: number;
}

/**
 * A viscosity from a line. `extrapolated` is true below 0 °C, where wax and yield stress make real oil leave the line;
 * a panel must say so.
 */
export interface ViscosityRead {
  mm2s: number;
  extrapolated: boolean;
}

const COLDEST = -60;
const HOTTEST = 200;
const badTemperature = (degC: number): string | null =>
  outside("oil temperature", degC, COLDEST, HOTTEST, "degC");
const badViscosity = (mm2s: number): string | null => outside("viscosity", mm2s, 0.3, 1e7, "mm2/s");

/** Returns Z of ASTM D341: v + 0.7, and below 2 mm²/s a further correction. */
function zOf(mm2s: number): number {
  return mm2s + 0.7 + (mm2s < 2 ? Math.exp(-1.47 - 1.84 * mm2s - 0.51 * mm2s ** 2) : 0);
}

/** Returns the inverse of `zOf` by the polynomial that ASTM D341 prints for it. */
function viscosityOf(z: number): number {
  const w = z - 0.7;
  return w >= 2 ? w : w - Math.exp(-0.7487 - 3.295 * w + 0.6119 * w ** 2 - 0.3193 * w ** 3);
}

/**
 * Returns the line through two points (ASTM D341, Walther). `zeroCelsius` is 273.15 K; older sheets use 273. Refuses
 * points outside −60 to 200 °C or 0.3 to 10⁷ mm²/s, points less than 1 K apart, and oil that is not thinner when
 * hotter.
 */
export function viscosityLine(
  p: ViscosityPoint,
  q: ViscosityPoint,
  zeroCelsius = 273.15,
): Outcome<ViscosityLine> {
  const why =
    badTemperature(p.degC) ?? badTemperature(q.degC) ?? badViscosity(p.mm2s) ?? badViscosity(q.mm2s);
  if (why) return refused(why);
  if (Math.abs(p.degC - q.degC) < 1) return refused("the two points of an oil are at least 1 K apart");
  const [cold, hot] = p.degC < q.degC ? [p, q] : [q, p];
  if (cold.mm2s <= hot.mm2s) return refused("oil is thinner when hotter");
  const tCold = Math.log10(cold.degC + zeroCelsius);
  const tHot = Math.log10(hot.degC + zeroCelsius);
  const wCold = Math.log10(Math.log10(zOf(cold.mm2s)));
  const wHot = Math.log10(Math.log10(zOf(hot.mm2s)));
  const b = (wCold - wHot) / (tHot - tCold);
  return found({ a: wCold + b * tCold, b, zeroCelsius });
}

/** Slopes and intercepts far beyond any oil's (D341's own examples lie near A = 9, B = 3.5). */
function badLine({ a, b, zeroCelsius }: ViscosityLine): string | null {
  return (
    outside("A of the oil's line", a, 0, 50) ??
    outside("B of the oil's line", b, 0.01, 20) ??
    outside("zero Celsius", zeroCelsius, 273, 273.15, "K")
  );
}

/** Returns the viscosity at a temperature of −60 to 200 °C. */
export function viscosityAt(line: ViscosityLine, degC: number): Outcome<ViscosityRead> {
  const why = badLine(line) ?? badTemperature(degC);
  if (why) return refused(why);
  const z = 10 ** (10 ** (line.a - line.b * Math.log10(degC + line.zeroCelsius)));
  return found({ mm2s: viscosityOf(z), extrapolated: degC < 0 });
}

/**
 * Returns the temperature, °C, at which the oil has a viscosity. Refuses a viscosity that it has only outside −60 to
 * 200 °C.
 */
export function temperatureOf(line: ViscosityLine, mm2s: number): Outcome<number> {
  const why = badLine(line) ?? badViscosity(mm2s);
  if (why) return refused(why);
  const degC = 10 ** ((line.a - Math.log10(Math.log10(zOf(mm2s)))) / line.b) - line.zeroCelsius;
  const off = badTemperature(degC);
  return off ? refused(off) : found(degC);
}
