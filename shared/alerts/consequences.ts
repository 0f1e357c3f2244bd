import { type Engine, plain } from "../engine/life.ts";
import { groundPowerVerdict } from "../power/groundPower.ts";
import type { AlertKind } from "../protocol/alerts.ts";
import type { Fact } from "../protocol/events.ts";
import { POSTS } from "../protocol/posts.ts";
import { type Alert, engineOf, type SessionState } from "../session/state.ts";
import { ALERT_RULES } from "./kinds.ts";
import { needsPerson } from "./machine.ts";

/** Alerts that begin, end, come off their shelf, sound again, or are reset when everybody has acknowledged. */
export function alertConsequences(state: SessionState, now: number): Fact[] {
  const there = standing(state);
  return [
    ...begun(state, now),
    ...exceeded(state),
    ...state.alerts.flatMap((a) => ofAlert(state, a, there, now)),
  ];
}

interface Standing {
  stops: ReadonlySet<number | null>;
  signals: ReadonlySet<number | null>;
}

/** Numbers of every stop that stands, and of every signal that is open. */
function standing(state: SessionState): Standing {
  const stops = [...state.fires, ...state.cuts, ...state.holds].map((s) => s.id);
  return { stops: new Set(stops), signals: new Set(state.signals.map((s) => s.id)) };
}

interface Target {
  engine?: number;
  ref?: number;
}

function raise(kind: AlertKind, target: Target = {}): Fact {
  return { type: "alertRaised", kind, to: [...ALERT_RULES[kind].to], ...target };
}

function has(state: SessionState, kind: AlertKind, match: (a: Alert) => boolean): boolean {
  return state.alerts.some((a) => a.kind === kind && match(a));
}

function begun(state: SessionState, now: number): Fact[] {
  const facts = state.engines.flatMap((e) => ofEngine(state, e, now));
  // Looked up, not searched for: a thousand holds are still answered at once.
  const stopsRaised = new Set<number | null>();
  const unansweredRaised = new Set<number | null>();
  for (const { kind, ref } of state.alerts) (kind === "unanswered" ? unansweredRaised : stopsRaised).add(ref);
  const stops = [
    ...state.fires.map((s) => ["fire", s] as const),
    ...state.cuts.map((s) => ["cut", s] as const),
    ...state.holds.map((s) => ["hold", s] as const),
  ];
  for (const [kind, stop] of stops) {
    if (!stopsRaised.has(stop.id)) facts.push(raise(kind, { ref: stop.id }));
  }
  if (voltsOutOfRange(state) && !has(state, "groundPowerOutOfRange", (a) => a.active)) {
    facts.push(raise("groundPowerOutOfRange"));
  }
  for (const signal of state.signals) {
    if (signal.late === 2 && !unansweredRaised.has(signal.id)) {
      facts.push(
        raise("unanswered", { ref: signal.id, ...(signal.engine === null ? {} : { engine: signal.engine }) }),
      );
    }
  }
  return facts;
}

function ofEngine(state: SessionState, engine: Engine, now: number): Fact[] {
  const life = plain(engine.life);
  const n = engine.n;
  const burning = engine.life.is === "fire";
  const active = (kind: AlertKind) => has(state, kind, (a) => a.active && a.engine === n);
  const facts: Fact[] = [];
  if (life.is === "cranking") {
    if (now > life.limitAt && !life.limitSaid) {
      const fact = raise("starterLimit", { engine: n });
      // The fire drill wins over the starter's limit: said by design to nobody, but on the record.
      facts.push(burning && fact.type === "alertRaised" ? { ...fact, suppressedBy: "fire" } : fact);
    }
    if (!life.cleared && !burning && !active("turningUncleared"))
      facts.push(raise("turningUncleared", { engine: n }));
  }
  if (life.is === "caught") {
    if (life.firstOilAt === null && now > life.firstDueAt && !life.firstLateSaid) {
      facts.push(raise("oilFirstLate", { engine: n }));
    }
    if (now > life.normalDueAt && !life.normalLateSaid) facts.push(raise("oilNormalLate", { engine: n }));
  }
  if (guardMissing(state, engine) && !active("guardMissing"))
    facts.push(raise("guardMissing", { engine: n }));
  return facts;
}

/** An engine between starter and stable with no guard reported at it. */
function guardMissing(state: SessionState, engine: Engine): boolean {
  const is = plain(engine.life).is;
  return (is === "cranking" || is === "caught" || is === "running") && state.guard?.engine !== engine.n;
}

/** A starter held past its limit is kept with its seconds once it is let go, whatever the reason was. */
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

function ofAlert(state: SessionState, alert: Alert, there: Standing, now: number): Fact[] {
  if (alert.active && !stillTrue(state, alert, there)) return [{ type: "alertEnded", alert: alert.id }];
  if (!alert.active && latchedEverywhere(state, alert)) return [{ type: "alertReset", alert: alert.id }];
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

/** When an alert that a post still has to act on sounds again; null when nobody who is there has to. */
export function soundsAgainAt(state: SessionState, alert: Alert): number | null {
  const waiting = POSTS.some((p) => state.posts[p] !== null && needsPerson(alert.posts[p] ?? "normal"));
  return waiting ? alert.againAt : null;
}

/** Its end was a person's deliberate act and everybody has acknowledged: it may go. */
function latchedEverywhere(state: SessionState, alert: Alert): boolean {
  const held = POSTS.filter((p) => state.posts[p] !== null && alert.posts[p] !== undefined);
  return held.length > 0 && held.every((p) => alert.posts[p] === "latchedAcknowledged");
}

function voltsOutOfRange(state: SessionState): boolean {
  const verdict = groundPowerVerdict(state);
  return verdict !== null && !verdict.within;
}

/** Whether what an alert is about still holds. */
function stillTrue(state: SessionState, alert: Alert, there: Standing): boolean {
  const engine = alert.engine === null ? undefined : engineOf(state, alert.engine);
  const life = engine ? plain(engine.life) : null;
  switch (alert.kind) {
    case "starterLimit":
      return life?.is === "cranking";
    case "turningUncleared":
      return life?.is === "cranking" && !life.cleared;
    case "guardMissing":
      return engine !== undefined && guardMissing(state, engine);
    case "oilFirstLate":
      return life?.is === "caught" && life.firstOilAt === null;
    case "oilNormalLate":
      return life?.is === "caught";
    case "groundPowerOutOfRange":
      return voltsOutOfRange(state);
    case "fire":
    case "cut":
    case "hold":
      return there.stops.has(alert.ref);
    case "unanswered":
      return there.signals.has(alert.ref);
  }
}
