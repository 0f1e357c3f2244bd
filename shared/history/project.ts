import { type Engine, plain } from "../engine/life.ts";
import { type Attempt, attemptAfter } from "../paper/attempt.ts";
import type { Moment } from "../paper/moments.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Fitted } from "../protocol/fitted.ts";
import { evolve } from "../session/evolve.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { crankedRow } from "./cranked.ts";
import { alertRaised, stopsRaised } from "./happened.ts";
import { idleFigures } from "./idle.ts";
import type { StartAlert, StartRow, StartStop } from "./row.ts";
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
  /** The attempt that is open at each engine. */
  open: Record<number, Attempt>;
  /** Raised before the first engagement: they belong to its row. */
  early: { alerts: StartAlert[]; stops: StartStop[] };
}

export const NO_STARTS: StartHistory = {
  state: null,
  rows: [],
  fitted: [],
  open: {},
  early: { alerts: [], stops: [] },
};

/** Returns the session's starts after more of its events. */
export function startsAfter(history: StartHistory, events: readonly SessionEvent[]): StartHistory {
  const { early } = history;
  const next: StartHistory = {
    ...history,
    rows: [...history.rows],
    open: { ...history.open },
    early: { alerts: [...early.alerts], stops: [...early.stops] },
  };
  for (const event of events) {
    const before = next.state;
    const after = evolve(before, event);
    next.state = after;
    if (event.fact.type === "planned") next.fitted = event.fact.fitted ?? [];
    for (const engine of after.engines) followEngine(next, { event, before, after }, engine);
    addRaised(next, { event, before, after });
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
  history.early = { alerts: [], stops: [] };
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

function reachedBy(engine: Engine, before: StartRow["reached"]): StartRow["reached"] {
  const { is } = plain(engine.life);
  return is === "cranking" ? "cranked" : is === "caught" || is === "running" || is === "stable" ? is : before;
}

/** Adds alerts and stops to one row each: that of the engine they name, else that of the newest engagement. */
function addRaised(history: StartHistory, moment: Moment): void {
  const alert = alertRaised(moment);
  if (alert) rowFor(history, alert.engine).alerts.push(alert);
  for (const stop of stopsRaised(moment)) rowFor(history, null).stops.push(stop);
}

function rowFor(history: StartHistory, engine: number | null): StartHistory["early"] {
  const own = engine === null ? -1 : history.rows.findLastIndex((r) => r.n === engine);
  const at = own >= 0 ? own : history.rows.length - 1;
  const row = history.rows[at];
  if (!row) return history.early;
  const copy = { ...row, alerts: [...row.alerts], stops: [...row.stops] };
  history.rows[at] = copy;
  return copy;
}

function addExceeded(history: StartHistory, { engine, limit, allowed, found }: FactOf<"exceeded">): void {
  const at = history.rows.findLastIndex((r) => r.n === engine);
  const row = history.rows[at];
  if (row) history.rows[at] = { ...row, exceeded: [...row.exceeded, { limit, allowed, found }] };
}
