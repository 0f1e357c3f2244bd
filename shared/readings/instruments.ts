import { withEngine } from "../engine/evolve.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import type { Instrument } from "./instrument.ts";
import { readingLowers } from "./lowers.ts";

const keyOf = (gauge: string, engine: number | undefined) => `${gauge} ${engine ?? ""}`.trim();

/**
 * Returns the state after readings of an instrument. They are kept beside the readings of people and answer nothing that
 * a person is asked. One that lowers confidence counts as if a person had read it; only a person's reading ends that.
 */
export function evolveInstruments(
  state: SessionState,
  event: SessionEvent,
  { readings, name, to }: FactOf<"instrumentsRead">,
): SessionState {
  const { at } = event;
  // One that was recorded late is no younger for it.
  const read = Math.min(at, to);
  const instruments = { ...state.instruments };
  let next = state;
  for (const reading of readings) {
    const { gauge, engine, value, unit } = reading;
    // A broker that was away may send an older one after a newer one.
    if ((instruments[keyOf(gauge, engine)]?.to ?? 0) > to) continue;
    instruments[keyOf(gauge, engine)] = { ...reading, at: read, name, to };
    const said = { type: "reading" as const, gauge, reading: { value, unit } };
    if (engine !== undefined && readingLowers(next, { ...said, engine }))
      next = withEngine(next, engine, (e) => ({
        ...e,
        readings: { ...e.readings, [gauge]: { value, unit, at, name, byInstrument: true } },
      }));
  }
  return { ...next, instruments };
}

/** Returns the last reading of a gauge by an instrument, however old; null when there was none. */
export function instrumentLast(
  state: SessionState,
  gauge: string,
  engine: number | undefined,
): Instrument | null {
  return state.instruments?.[keyOf(gauge, engine)] ?? null;
}

/** Returns an instrument's reading of a gauge; null when there is none or it is older than the type's limit. */
export function instrumentNow(
  state: SessionState,
  gauge: string,
  engine: number | undefined,
  now: number,
): Instrument | null {
  const read = instrumentLast(state, gauge, engine);
  const limit = state.type.timing.instrument;
  return read && limit && now - read.at < limit.value * 1000 ? read : null;
}
