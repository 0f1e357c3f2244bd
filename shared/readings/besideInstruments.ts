import { type Band, gaugeBand } from "../models/gaugeBand.ts";
import type { Reading } from "../session/attribution.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import type { Gauge } from "../types/schema.ts";
import type { Instrument } from "./instrument.ts";
import { instrumentLast, instrumentNow } from "./instruments.ts";

/** The last reading of a gauge by an instrument, and the one by a person. */
export interface BesideInstrument {
  gauge: Gauge;
  /** Null for a gauge of the aircraft. */
  engine: number | null;
  read: Instrument;
  /** True when it is as old as the type allows: it says nothing about now. */
  old: boolean;
  /** The band of the gauge's marks; null when it is old or off the scale. */
  band: Band | null;
  /** Null when no person has read it. */
  person: Reading | null;
}

/** Returns a row for each gauge that an instrument has read: gauges in the type's order, engines in the planned order. */
export function besideInstruments(state: SessionState, now: number): BesideInstrument[] {
  return state.type.gauges.flatMap((gauge) =>
    (gauge.perEngine ? state.order : [null]).flatMap((engine): BesideInstrument[] => {
      const read = instrumentLast(state, gauge.id, engine ?? undefined);
      if (!read) return [];
      const old = instrumentNow(state, gauge.id, engine ?? undefined, now) === null;
      const judged = old ? null : gaugeBand(gauge, read);
      const readings = engine === null ? state.readings : engineOf(state, engine)?.readings;
      const person = readings?.[gauge.id];
      return [
        {
          ...{ gauge, engine, read, old },
          band: judged?.ok ? judged.value : null,
          person: person && !person.byInstrument ? person : null,
        },
      ];
    }),
  );
}
