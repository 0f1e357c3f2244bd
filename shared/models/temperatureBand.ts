import type { Quantity } from "../protocol/quantity.ts";
import { found, type Outcome, refused } from "./outcome.ts";
import { atLeast, convert } from "./units.ts";

/** A value that applies up to and including a temperature; null: above every other band. */
export interface TemperatureBand<T> {
  upTo: Quantity | null;
  use: T;
}

/**
 * Returns the first band that reaches the temperature, compared in the band's own unit. It serves limits that differ
 * between cold and warm: starter ladders (TM 1-1520-238-10: other rests at or below 16 °C), oil-pressure times in
 * summer and winter. Refuses a temperature above the last band, and bands that do not rise.
 */
export function bandFor<T>(bands: readonly TemperatureBand<T>[], temperature: Quantity): Outcome<T> {
  for (const [i, band] of bands.entries()) {
    const before = bands[i - 1]?.upTo;
    if (i > 0 && !before) return refused("the band without an upper end comes last");
    if (before && band.upTo) {
      const rises = atLeast(before, band.upTo);
      if (!rises.ok) return rises;
      if (rises.value) return refused("temperature bands rise");
    }
  }
  for (const { upTo, use } of bands) {
    if (upTo === null) {
      const read = convert(temperature, "degC");
      return read.ok ? found(use) : read;
    }
    const reaches = atLeast(upTo, temperatureIn(upTo, temperature));
    if (!reaches.ok) return reaches;
    if (reaches.value) return found(use);
  }
  return refused(`no band reaches ${temperature.value} ${temperature.unit}`);
}

/**
 * Returns the temperature in the limit's unit if it can be converted; else as it is, so that the comparison refuses it.
 */
function temperatureIn(limit: Quantity, temperature: Quantity): Quantity {
  const read = convert(temperature, limit.unit);
  return read.ok ? read.value : temperature;
}

/** Returns as bands a type's rule that applies above all of its `colder` bands. */
export function bandsBelow<T extends { colder?: readonly (C & { upTo: Quantity })[] | undefined }, C>(
  rule: T & C,
): TemperatureBand<C>[] {
  const colder = (rule.colder ?? []).map((band) => ({ upTo: band.upTo, use: band as C }));
  return [...colder, { upTo: null, use: rule }];
}

/**
 * Returns the one band of a known temperature, or all bands when it is unknown: the caller takes the most restrictive.
 */
export function chosenBands<T>(
  bands: readonly TemperatureBand<T>[],
  temperature: Quantity | null,
): { bands: T[]; assumed: boolean } {
  const known = temperature ? bandFor(bands, temperature) : null;
  if (known?.ok) return { bands: [known.value], assumed: false };
  return { bands: bands.map((b) => b.use), assumed: bands.length > 1 };
}
