import { type Engine, isTurning } from "../engine/life.ts";
import { oilDilutionFigure } from "../figures/oilDilution.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { SignalKind } from "../protocol/signals.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { isForecast } from "../stopping/forecast.ts";
import { typeIn } from "../words/authored.ts";
import { type Lookup, sayActor, sayEvent } from "../words/events.ts";
import { figureName, figureWords } from "../words/figures.ts";
import { wordsOf } from "../words/piece.ts";
import { workedOut, written } from "../words/quantity.ts";
import type { Say } from "../words/say.ts";
import { workedBook } from "../words/worked.ts";
import { type CheckRow, checkLog } from "./figureLog.ts";
import type { LogRow } from "./logRow.ts";
import type { Moment } from "./moments.ts";

/** The stop of one engine in a return. Times are server milliseconds; null: did not happen. */
export interface StoppedEngine {
  n: number;
  /** It turned as the aircraft came in. */
  cameTurning: boolean;
  stopped: { at: number; by: string } | null;
  /** Seconds at idle before it was stopped; null where nobody reported the idle, or it was not stopped. */
  idledS: number | null;
  /** The last figures of the cool-down's gauges before it was stopped, read at idle. */
  figures: string[];
  /** Words of what was short of its cool-down, and the reason that was written; null where nothing was short. */
  short: { words: string; reason: string | null } | null;
  /** Its propeller was seen still. */
  still: { at: number; by: string } | null;
}

/** A return on paper: what happened from the arrival to the stowing. */
export interface ReturnLog {
  arrival: LogRow[];
  engines: StoppedEngine[];
  /** Each forecast of the night, with the oil dilution worked out from it; null where the type gives none. */
  dilution: LogRow[] | null;
  after: LogRow[];
  stowing: CheckRow[];
}

const ARRIVAL: readonly SignalKind[] = ["onStand", "brakesSet", "chocksIn", "powerConnected", "coolDown"];
const AFTER: readonly SignalKind[] = ["switchesOff", "powerDisconnected"];

/** Returns a return's own part of the record; null for a start. */
export function returnLog(moments: readonly Moment[], lookup: Lookup): ReturnLog | null {
  const state = moments.at(-1)?.after;
  if (!state?.returning) return null;
  const sent = (kinds: readonly SignalKind[]) =>
    moments.flatMap(({ event }): LogRow[] => {
      const { fact, seq, at } = event;
      if (fact.type !== "sent" || !kinds.includes(fact.kind)) return [];
      return [{ seq, at, words: sayEvent(event, lookup), by: sayActor(event, lookup.say) }];
    });
  const checks = typeIn(state.type, lookup.say.language).checks;
  const stowing = checks.filter((c) => c.stage === "stowing").map((c) => c.words);
  return {
    arrival: sent(ARRIVAL),
    engines: state.engines.map(({ n }) => stoppedEngine(moments, n, lookup)),
    dilution: state.type.stopping?.oilDilution ? dilutionLog(moments, lookup.say) : null,
    after: sent(AFTER),
    stowing: checkLog(moments, lookup.say).filter((c) => stowing.includes(c.words)),
  };
}

/** Returns each forecast of the night with its source, and what the type's steps make of it. */
function dilutionLog(moments: readonly Moment[], say: Say): LogRow[] {
  const told = (text: string) => wordsOf(workedBook(say.language)(text));
  return moments.flatMap(({ event, after }): LogRow[] => {
    const { fact, seq, at } = event;
    if (fact.type !== "checked" || !fact.reading || !isForecast(after.type, fact.check)) return [];
    const figure = oilDilutionFigure(after);
    const check = typeIn(after.type, say.language).checks.find((c) => c.id === fact.check);
    const forecast = `${check?.words ?? fact.check}: ${written(fact.reading)} (${fact.note ?? ""})`;
    const words = [
      forecast,
      ...(figure
        ? [`${figureName(figureWords(say), figure.words)}: ${workedOut(figure.value, figure.unit)}`]
        : []),
      ...(figure?.detail ? [told(figure.detail)] : []),
      ...(figure?.caution ? [told(figure.caution)] : []),
    ];
    return [{ seq, at, words: words.join("\n"), by: sayActor(event, say) }];
  });
}

function stoppedEngine(moments: readonly Moment[], n: number, lookup: Lookup): StoppedEngine {
  const row: StoppedEngine = {
    n,
    cameTurning: false,
    stopped: null,
    idledS: null,
    figures: [],
    short: null,
    still: null,
  };
  for (const { event, before, after } of moments) {
    const was = before ? engineOf(before, n) : undefined;
    const is = engineOf(after, n);
    if (!before || !was || !is) continue;
    const { fact } = event;
    if (fact.type === "stageReached" && fact.stage === "arrival") row.cameTurning = isTurning(is.life);
    const done = { at: event.at, by: sayActor(event, lookup.say) };
    if (isTurning(was.life) && !isTurning(is.life)) {
      row.stopped = done;
      Object.assign(row, cooled(before, was, event.at, lookup.say));
      row.still = null;
    }
    // An engine that turns again is stopped again: only its last stop is printed.
    if (!isTurning(was.life) && isTurning(is.life)) row.short = null;
    if (was.unseen !== undefined && is.unseen === undefined && !isTurning(is.life)) row.still = done;
    if (fact.type === "coolDownCut" && fact.engine === n)
      row.short = { words: sayEvent(event, lookup), reason: null };
    if (fact.type === "defectWritten" && fact.engine === n && row.short && owed(before, n))
      row.short = { ...row.short, reason: fact.words };
  }
  return row;
}

const owed = (state: SessionState, n: number) => state.returning?.remarksDue.includes(n) ?? false;

function cooled(
  state: SessionState,
  engine: Engine,
  at: SessionEvent["at"],
  say: Say,
): Pick<StoppedEngine, "idledS" | "figures"> {
  const since = state.returning?.coolingSince ?? null;
  if (since === null) return { idledS: null, figures: [] };
  const { gauges, stopping } = typeIn(state.type, say.language);
  const figures = (stopping?.coolDown?.gauges ?? []).flatMap(({ gauge }) => {
    const read = engine.readings[gauge];
    if (!read || read.at < since) return [];
    const name = gauges.find((g) => g.id === gauge)?.name ?? gauge;
    return [`${name} ${written({ value: read.value, unit: read.unit })}`];
  });
  return { idledS: Math.floor((at - since) / 1000), figures };
}
