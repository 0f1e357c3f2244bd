import type { Attribution } from "../session/attribution.ts";

/** The air as last recorded, and the report it was read from if one was pasted. */
export interface Weather {
  by: Attribution;
  windKt: number;
  gustKt: number | null;
  fromDeg: number | null;
  temperatureC: number | null;
  qnhHpa: number | null;
  dewPointC?: number;
  metar?: string;
  /** When the report's observer saw it so; absent where whoever said it saw it then. */
  observedAt?: number;
}

/** Who said it, with the moment it was seen so: from there it grows old. */
export function seenBy({ by, observedAt }: Weather): Attribution {
  return observedAt === undefined ? by : { ...by, at: observedAt };
}

/** A flash of lightning: statute miles off, null when nobody could tell. */
export interface SeenFlash {
  at: number;
  miles: number | null;
  /** The number it is recorded under, and who saw it. */
  seq: number;
  person: string | null;
}
