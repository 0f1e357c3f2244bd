import type { Attribution } from "../session/attribution.ts";

/** The air as last recorded, and the weather report it came from, if one was pasted. */
export interface Weather {
  by: Attribution;
  windKt: number;
  gustKt: number | null;
  fromDeg: number | null;
  temperatureC: number | null;
  qnhHpa: number | null;
  dewPointC?: number;
  /** Clockwise limits of a direction that swings, degrees. */
  swing?: [from: number, to: number];
  metar?: string;
  /** Time at which the report's observer saw it; absent if the person who reported it saw it at that time. */
  observedAt?: number;
}

/** Returns who reported it, with the time of the observation, because it ages from then. */
export function seenBy({ by, observedAt }: Weather): Attribution {
  return observedAt === undefined ? by : { ...by, at: observedAt };
}

/** A flash of lightning: its distance in statute miles; null when nobody could tell. */
export interface SeenFlash {
  at: number;
  miles: number | null;
  /** The number of its event, and the person who saw it. */
  seq: number;
  person: string | null;
}

/** A report that the field's own station sent, as it came. */
export interface StationReport {
  metar: string;
  at: number;
  observedAt: number;
  name: string;
}
