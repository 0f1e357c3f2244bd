import type { Said } from "./state.ts";

/** The air as last recorded, and the report it was read from if one was pasted. */
export interface Weather {
  by: Said;
  windKt: number;
  gustKt: number | null;
  fromDeg: number | null;
  temperatureC: number | null;
  qnhHpa: number | null;
  dewPointC?: number;
  metar?: string;
}

/** A flash of lightning: statute miles off, null when nobody could tell. */
export interface SeenFlash {
  at: number;
  miles: number | null;
}
