import type { InstrumentReading } from "../protocol/instruments.ts";

/** The last reading of a gauge by an instrument. */
export interface Instrument extends InstrumentReading {
  at: number;
  /** Name of the service account. */
  name: string;
}
