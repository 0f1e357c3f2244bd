/** Insulation ratings for which the table gives currents, °C. */
export const WIRE_RATINGS = [105, 150, 200] as const;
export type WireRating = (typeof WIRE_RATINGS)[number];

/** One size of tin-plated copper wire. Names are AWG, with 1/0 to 4/0 for 0 to 0000. */
export interface WireRow {
  size: string;
  circularMils: number;
  /** Greatest ohms per 1000 ft at 20 °C. */
  ohmPer1000Ft: number;
  /** Continuous amperes in a bundle at 70 °C ambient, by insulation rating. */
  amps: Record<WireRating, number>;
}

const row = (
  size: string,
  circularMils: number,
  ohmPer1000Ft: number,
  a105: number,
  a150: number,
  a200: number,
) => ({
  size,
  circularMils,
  ohmPer1000Ft,
  amps: { 105: a105, 150: a150, 200: a200 },
});

/**
 * FAA AC 43.13-1B Change 1 (2001) Table 11-9, thinnest first. The ohms have two or three digits: an error of up to
 * about ±8 %.
 */
export const WIRE_TABLE: readonly WireRow[] = [
  row("24", 475, 28.4, 2.5, 4, 5),
  row("22", 755, 16.2, 3, 5, 6),
  row("20", 1216, 9.88, 4, 7, 9),
  row("18", 1900, 6.23, 6, 9, 12),
  row("16", 2426, 4.81, 7, 11, 14),
  row("14", 3831, 3.06, 10, 14, 18),
  row("12", 5874, 2.02, 13, 19, 25),
  row("10", 9354, 1.26, 17, 26, 32),
  row("8", 16_983, 0.7, 38, 57, 71),
  row("6", 26_818, 0.44, 50, 76, 97),
  row("4", 42_615, 0.28, 68, 103, 133),
  row("2", 66_500, 0.18, 95, 141, 179),
  row("1", 81_700, 0.15, 113, 166, 210),
  row("1/0", 104_500, 0.12, 128, 192, 243),
  row("2/0", 133_000, 0.09, 147, 222, 285),
  row("3/0", 166_500, 0.07, 172, 262, 335),
  row("4/0", 210_900, 0.06, 204, 310, 395),
];

/**
 * Volts that a run may lose, by nominal bus volts, AC 43.13-1B Table 11-6. The continuous column agrees with Table
 * 11-7; the intermittent one is from memory.
 */
export const ALLOWABLE_DROP: readonly { nominal: number; continuous: number; intermittent: number }[] = [
  { nominal: 14, continuous: 0.5, intermittent: 1 },
  { nominal: 28, continuous: 1, intermittent: 2 },
  { nominal: 115, continuous: 4, intermittent: 8 },
  { nominal: 200, continuous: 7, intermittent: 14 },
];
