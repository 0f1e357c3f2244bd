import type { InstrumentReading } from "../protocol/instruments.ts";

/** The last reading of a gauge by an instrument. */
export interface Instrument extends InstrumentReading {
  /** By the server's clock. */
  at: number;
  /** By the instrument's clock. */
  to: number;
  /** Name of the service account. */
  name: string;
}
