import { type Engine, plain } from "../engine/life.ts";
import { type Attempt, attemptAfter } from "../paper/attempt.ts";
import type { Moment } from "../paper/moments.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Fitted } from "../protocol/fitted.ts";
import { evolve } from "../session/evolve.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { crankedRow } from "./cranked.ts";
import {
  alertChange,
  alertRaised,
  NOTHING_RAISED,
  refusalMade,
  stopsEnded,
  stopsRaised,
} from "./happened.ts";
import { idleFigures } from "./idle.ts";
import { differences, measuredFigures, type Stretch, stretchesAfter } from "./measured.ts";
import type { Raised, StartRow } from "./row.ts";
import { attemptFigures, runUpFigures, voltFigures, warmUpFigures } from "./running.ts";

/**
 * The starts of one session up to an event, and what is needed to go on from there. Plain JSON. It holds nothing that
 * the events do not hold: it can be thrown away and built again.
 */
export interface StartHistory {
  /** The session after the last event; null before its plan. */
  state: SessionState | null;
  rows: StartRow[];
  fitted: Fitted[];
  /** The newest readings of instruments that measure a start. */
  stretches: Stretch[];
  /** The attempt that is open at each engine. */
  open: Record<number, Attempt>;
  /** Raised before the first engagement: they belong to its row. */
  early: Raised;
}

export const NO_STARTS: StartHistory = {
  state: null,
  rows: [],
  fitted: [],
  stretches: [],
  open: {},
  early: NOTHING_RAISED,
};

/** Returns the session's starts after more of its events. */
export function startsAfter(history: StartHistory, events: readonly SessionEvent[]): StartHistory {
  const next: StartHistory = { ...history, rows: [...history.rows], open: { ...history.open } };
  for (const event of events) {
    const before = next.state;
    const after = evolve(before, event);
    next.state = after;
    if (event.fact.type === "planned") next.fitted = event.fact.fitted ?? [];
    for (const engine of after.engines) followEngine(next, { event, before, after }, engine);
    if (event.fact.type === "instrumentsRead") next.stretches = stretchesAfter(next.stretches, event.fact);
    if (next.stretches.length > 0) measure(next, after);
    addRaised(next, { event, before, after });
    followRaised(next, { event, before, after });
    if (event.fact.type === "exceeded") addExceeded(next, event.fact);
  }
  return next;
}

/** Adds what one moment changed at one engine to a history that may be changed. */
function followEngine(history: StartHistory, moment: Moment, engine: Engine): void {
  const { n } = engine;
  if (moment.before && engineOf(moment.before, n) === engine) return;
  const was = history.open[n] ?? null;
  const attempt = attemptAfter(was, moment, n);
  if (attempt !== null && attempt.crankedAt !== null && attempt.crankedAt !== was?.crankedAt)
    addRow(history, moment, n);
  const at = history.rows.findLastIndex((r) => r.n === n);
  const row = history.rows[at];
  if (row) history.rows[at] = grown(row, attempt, moment, engine);
  if (attempt === null || attempt.ended) delete history.open[n];
  else history.open[n] = attempt;
}

function addRow(history: StartHistory, moment: Moment, n: number): void {
  const attempt = history.rows.filter((r) => r.n === n).length + 1;
  const row = crankedRow(moment, n, { fitted: history.fitted, attempt });
  history.rows.push({ ...row, ...history.early });
  history.early = NOTHING_RAISED;
}

/**
 * Returns the row after one more moment of its engine. `attempt` is null once the engagement is over; it may be one
 * that is only asked for, which changes nothing in the row of the one before.
 */
function grown(row: StartRow, attempt: Attempt | null, { event, after }: Moment, engine: Engine): StartRow {
  const volts = voltFigures(engine, row.at);
  if (attempt === null || attempt.crankedAt !== row.at)
    return { ...row, figures: { ...row.figures, ...volts } };
  const { caught, wasCleared, ended } = attempt;
  const warm =
    caught === null || row.figures.warmUpMin ? {} : warmUpFigures(after.type, engine, caught, event.at);
  return {
    ...row,
    cleared: wasCleared,
    reached: reachedBy(engine, row.reached),
    ended: ended?.is ?? null,
    figures: {
      ...row.figures,
      ...volts,
      ...attemptFigures(attempt),
      ...(caught === null ? {} : idleFigures(after, engine.n, caught)),
      ...warm,
      ...(caught === null ? {} : runUpFigures(after.type, engine)),
    },
  };
}

/** Measures the newest start of each engine by what instruments have read, in a history that may be changed. */
function measure(history: StartHistory, state: SessionState): void {
  const since = history.stretches[0]?.from ?? 0;
  for (const { n, starter } of state.engines) {
    const at = history.rows.findLastIndex((r) => r.n === n);
    const row = history.rows[at];
    const use = row && starter.findLast(({ on }) => on === row.at);
    // Measurements of an older engagement are no longer here.
    if (!row || !use || row.at < since) continue;
    const caught = history.open[n]?.crankedAt === row.at ? history.open[n].caught : null;
    const figures = { ...row.figures, ...measuredFigures(history.stretches, state, { n, use, caught }) };
    history.rows[at] = { ...row, figures, differs: differences(figures, state.type) };
  }
}

function reachedBy(engine: Engine, before: StartRow["reached"]): StartRow["reached"] {
  const { is } = plain(engine.life);
  return is === "cranking" ? "cranked" : is === "caught" || is === "running" || is === "stable" ? is : before;
}

/**
 * Adds alerts, stops, refusals and touches to one row each: that of the engine they name, else that of the newest
 * engagement.
 */
function addRaised(history: StartHistory, moment: Moment): void {
  const alert = alertRaised(moment);
  if (alert) changeRow(history, alert.engine, (r) => ({ alerts: [...r.alerts, alert] }));
  const stops = stopsRaised(moment);
  if (stops.length > 0) changeRow(history, null, (r) => ({ stops: [...r.stops, ...stops] }));
  const refusal = refusalMade(moment);
  if (refusal) changeRow(history, null, (r) => ({ refusals: [...r.refusals, refusal] }));
  if (moment.event.fact.type === "present") changeRow(history, null, (r) => ({ touches: r.touches + 1 }));
}

function changeRow(history: StartHistory, engine: number | null, how: (r: Raised) => Partial<Raised>): void {
  const own = engine === null ? -1 : history.rows.findLastIndex((r) => r.n === engine);
  changeAt(history, own >= 0 ? own : history.rows.length - 1, how);
}

/** Changes the row at an index, or what was raised before the first engagement where there is none. */
function changeAt(history: StartHistory, at: number, how: (r: Raised) => Partial<Raised>): void {
  const row = history.rows[at];
  if (row) history.rows[at] = { ...row, ...how(row) };
  else history.early = { ...history.early, ...how(history.early) };
}

/** Follows what stood before this moment, in the row that holds it: put aside, acted on, over. */
function followRaised(history: StartHistory, moment: Moment): void {
  for (const alert of moment.before?.alerts ?? []) {
    const change = alertChange(alert, moment);
    if (Object.keys(change).length === 0) continue;
    const at = history.rows.findLastIndex((r) => r.alerts.some(({ id }) => id === alert.id));
    changeAt(history, at, ({ alerts }) => {
      const last = alerts.findLastIndex(({ id }) => id === alert.id);
      return { alerts: alerts.map((a, i) => (i === last ? { ...a, ...change } : a)) };
    });
  }
  for (const ended of stopsEnded(moment)) {
    const at = history.rows.findLastIndex((r) => r.stops.some(({ id }) => id === ended));
    changeAt(history, at, ({ stops }) => ({
      stops: stops.map((s) => (s.id === ended ? { ...s, ended: moment.event.at } : s)),
    }));
  }
}

function addExceeded(history: StartHistory, { engine, limit, allowed, found }: FactOf<"exceeded">): void {
  const at = history.rows.findLastIndex((r) => r.n === engine);
  const row = history.rows[at];
  if (row) history.rows[at] = { ...row, exceeded: [...row.exceeded, { limit, allowed, found }] };
}
