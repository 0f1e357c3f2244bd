import type { Engine } from "../engine/life.ts";
import { ALERT_KINDS, type AlertKind } from "../protocol/alerts.ts";
import type { Fact, FactOf } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import { type Alert, engineOf, type SessionState } from "../session/state.ts";
import type { MessageAlert } from "./definition.ts";
import { ALERTS } from "./kinds.ts";
import { needsPerson } from "./machine.ts";

/**
 * Returns the facts of alerts that begin, end, leave their shelf, sound again, or are reset when everybody has
 * acknowledged.
 */
export function alertConsequences(state: SessionState, now: number): Fact[] {
  const facts: Fact[] = [];
  for (const engine of state.engines) {
    for (const kind of ALERT_KINDS) {
      const fact = begunAt(state, kind, engine, now);
      if (fact) facts.push(fact);
    }
  }
  for (const kind of ALERT_KINDS) {
    facts.push(...begun(state, kind, now));
  }
  facts.push(...exceeded(state));
  if (state.alerts.length === 0) return facts;
  const lasting = lastingOf(state);
  for (const alert of state.alerts) facts.push(...ofAlert(state, alert, lasting, now));
  return facts;
}

/** Returns the numbers of the stops or signals for which a kind is still true. */
type Lasting = (kind: AlertKind, alert: MessageAlert) => ReadonlySet<number>;

/** Each kind is worked out once for all alerts, so that an answer stays fast with a thousand open holds. */
function lastingOf(state: SessionState): Lasting {
  const known = new Map<AlertKind, ReadonlySet<number>>();
  return (kind, alert) => {
    const found = known.get(kind) ?? new Set(alert.lasting(state));
    known.set(kind, found);
    return found;
  };
}

function raise(
  state: SessionState,
  kind: AlertKind,
  target: { engine?: number; ref?: number } = {},
): FactOf<"alertRaised"> {
  const { to } = ALERTS[kind];
  return { type: "alertRaised", kind, to: [...(isVacant(state, to) ? POSTS : to)], ...target };
}

/** Returns whether nobody holds one of these posts: what is addressed to it must then reach everybody else. */
function isVacant(state: SessionState, to: readonly Post[]): boolean {
  return to.some((post) => state.posts[post] === null);
}

function begunAt(state: SessionState, kind: AlertKind, engine: Engine, now: number): Fact | null {
  const alert = ALERTS[kind];
  if (alert.about !== "engine" || !alert.begins(state, engine, now)) return null;
  if (alert.remember === null && isActive(state, kind, engine.n)) return null;
  const raised = raise(state, kind, { engine: engine.n });
  return alert.fireSuppresses && engine.life.is === "fire" ? { ...raised, suppressedBy: "fire" } : raised;
}

function begun(state: SessionState, kind: AlertKind, now: number): Fact[] {
  const alert = ALERTS[kind];
  switch (alert.about) {
    case "engine":
      return [];
    case "aircraft":
      return alert.lasts(state, now) && !isActive(state, kind, null) ? [raise(state, kind)] : [];
    case "message": {
      const refs = alert.begun(state);
      if (refs.length === 0) return [];
      const raised = new Set(state.alerts.filter((a) => a.kind === kind).map((a) => a.ref));
      return refs.filter(({ ref }) => !raised.has(ref)).map((target) => raise(state, kind, target));
    }
  }
}

function isActive(state: SessionState, kind: AlertKind, engine: number | null): boolean {
  return state.alerts.some((a) => a.kind === kind && a.active && a.engine === engine);
}

/** A starter held past its limit is recorded with its seconds when it disengages, for whatever reason. */
function exceeded(state: SessionState): Fact[] {
  return state.engines.flatMap((e): Fact[] => {
    const use = e.starter.at(-1);
    if (!use || use.off === null) return [];
    const found = use.off - use.on;
    const known = e.exceeded.some((x) => x.limit === "starterTime" && x.at >= (use.off ?? 0));
    if (found <= use.onMax || known) return [];
    return [
      {
        type: "exceeded",
        engine: e.n,
        limit: "starterTime",
        allowed: use.onMax / 1000,
        found: found / 1000,
        unit: "s",
      },
    ];
  });
}

function ofAlert(state: SessionState, alert: Alert, lasting: Lasting, now: number): Fact[] {
  if (alert.active && !lasts(state, alert, lasting, now)) return [{ type: "alertEnded", alert: alert.id }];
  if (!alert.active && latchedEverywhere(state, alert)) return [{ type: "alertReset", alert: alert.id }];
  const untold = alert.active ? POSTS.filter((p) => alert.posts[p] === undefined) : [];
  if (untold.length > 0 && isVacant(state, Object.keys(alert.posts) as Post[])) {
    return [{ type: "alertWidened", alert: alert.id, to: untold }];
  }
  const fireGone = state.engines[(alert.engine ?? 0) - 1]?.life.is !== "fire";
  if (fireGone && Object.values(alert.posts).includes("suppressed")) {
    return [{ type: "alertUnsuppressed", alert: alert.id }];
  }
  const shelves = POSTS.filter((p) => now >= (alert.shelvedUntil[p] ?? Number.POSITIVE_INFINITY));
  if (shelves.length > 0) return shelves.map((post) => ({ type: "alertUnshelved", alert: alert.id, post }));
  if (now >= (soundsAgainAt(state, alert) ?? Number.POSITIVE_INFINITY))
    return [{ type: "alertAgain", alert: alert.id }];
  return [];
}

/**
 * Returns the time at which an alert sounds again because a post must still act on it; null when no present holder
 * must.
 */
export function soundsAgainAt(state: SessionState, alert: Alert): number | null {
  const waiting = POSTS.some((p) => state.posts[p] !== null && needsPerson(alert.posts[p] ?? "normal"));
  return waiting ? alert.againAt : null;
}

/** True if a person ended it on purpose and everybody has acknowledged: it may be reset. */
function latchedEverywhere(state: SessionState, alert: Alert): boolean {
  const held = POSTS.filter((p) => state.posts[p] !== null && alert.posts[p] !== undefined);
  return held.length > 0 && held.every((p) => alert.posts[p] === "latchedAcknowledged");
}

/** Returns whether the cause of an alert is still there. */
function lasts(state: SessionState, { kind, engine, ref }: Alert, lasting: Lasting, now: number): boolean {
  const alert = ALERTS[kind];
  switch (alert.about) {
    case "engine": {
      const found = engine === null ? undefined : engineOf(state, engine);
      return found !== undefined && alert.lasts(state, found);
    }
    case "aircraft":
      return alert.lasts(state, now);
    case "message":
      return ref !== null && lasting(kind, alert).has(ref);
  }
}
