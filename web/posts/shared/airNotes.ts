import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { lightningNow } from "../../../shared/weather/lightning.ts";
import { seenBy, type Weather } from "../../../shared/weather/weather.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { seconds, secondsLeft } from "../../ui/numbers.ts";
import type { LaterWords } from "../../words/en/later.ts";

/** Returns a line with the last weather report and its age, or null when nobody has reported one. */
export function windNote(
  { weather }: SessionState,
  now: number,
  units: UnitChoice,
  air: LaterWords["air"],
): string | null {
  return weather && [airWords(weather, units, air), seconds(now - seenBy(weather).at)].join(", ");
}

/** Returns the wind of a report in words, and the temperature and the pressure that it gives. */
export function airWords(
  { windKt, gustKt, fromDeg, temperatureC, qnhHpa }: Weather,
  units: UnitChoice,
  air: LaterWords["air"],
): string {
  const wind = fromDeg === null ? air.wind(windKt) : air.windFrom(fromDeg, windKt);
  const gusts = gustKt === null ? [] : [air.gusts(gustKt)];
  const warm = temperatureC === null ? [] : [writtenBoth({ value: temperatureC, unit: "degC" }, units)];
  const qnh = qnhHpa === null ? [] : [air.qnh(writtenBoth({ value: qnhHpa, unit: "hPa" }, units))];
  return [wind, ...gusts, ...warm, ...qnh].join(", ");
}

/** Returns a line about lightning that stops work now, or null. */
export function lightningNote(state: SessionState, now: number, air: LaterWords["air"]): string | null {
  const seen = lightningNow(state, now);
  if (seen?.state !== "stop") return null;
  const until = `${timeOfDay(seen.resumeAt)} UTC`;
  const left = secondsLeft(seen.resumeAt - now);
  return seen.nearestMiles === null
    ? air.stopsUnknown(until, left)
    : air.stopsFar(Number(seen.nearestMiles.toFixed(1)), until, left);
}
