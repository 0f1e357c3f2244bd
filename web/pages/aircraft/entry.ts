import type { HouseAircraft } from "../../../shared/house/aircraft.ts";
import type { Fitted } from "../../../shared/protocol/fitted.ts";
import type { AircraftEntry } from "../../net/aircraft.ts";

/** The fields of one engine's place, as typed. */
export interface FittedText {
  n: number;
  engine: { serial: string; hours: string };
  propeller: { serial: string; hours: string };
  starter: string;
}

/** The fields of an aircraft, as typed. */
export interface AircraftText {
  id: string;
  name: string;
  stand: string;
  notes: string;
  /** One for each engine of the type. */
  fitted: FittedText[];
}

export const NOTHING: AircraftText = { id: "", name: "", stand: "", notes: "", fitted: [] };

const textOf = (value: string | number | null | undefined) => (value ?? "").toString();
const orNull = (text: string) => (text.trim() === "" ? null : text.trim());

export function fittedText(n: number, fitted: readonly Fitted[]): FittedText {
  const known = fitted.find((f) => f.n === n);
  const part = (p?: Fitted["engine"]) => ({ serial: textOf(p?.serial), hours: textOf(p?.hours) });
  return {
    n,
    engine: part(known?.engine),
    propeller: part(known?.propeller),
    starter: textOf(known?.starter),
  };
}

export function textOfAircraft(a: HouseAircraft, engines: readonly number[]): AircraftText {
  const { id, name, stand, notes } = a;
  return {
    ...{ id, name, stand: textOf(stand), notes: textOf(notes) },
    fitted: engines.map((n) => fittedText(n, a.fitted)),
  };
}

/** Returns hours as typed, with a decimal comma or point; null for none, undefined when it is no figure. */
export function hoursIn(text: string): number | null | undefined {
  if (text.trim() === "") return null;
  const hours = Number(text.trim().replace(",", "."));
  return hours >= 0 && hours <= 200_000 ? hours : undefined;
}

/** Returns the entry to send; null while an hour's figure is none or something needed is missing. */
export function entryOf(
  { id, name, stand, notes, fitted }: AircraftText,
  type: { typeId: string; typeVersion: number },
): AircraftEntry | null {
  if (id.trim() === "" || name.trim() === "") return null;
  const places: Fitted[] = [];
  for (const { n, engine, propeller, starter } of fitted) {
    const [engineHours, propellerHours] = [hoursIn(engine.hours), hoursIn(propeller.hours)];
    if (engineHours === undefined || propellerHours === undefined) return null;
    const place = {
      n,
      engine: { serial: orNull(engine.serial), hours: engineHours },
      propeller: { serial: orNull(propeller.serial), hours: propellerHours },
      starter: orNull(starter),
    };
    const known = [place.engine, place.propeller].some((p) => p.serial !== null || p.hours !== null);
    if (known || place.starter !== null) places.push(place);
  }
  return {
    id: id.trim(),
    name: name.trim(),
    ...type,
    stand: orNull(stand),
    notes: orNull(notes),
    fitted: places,
  };
}
