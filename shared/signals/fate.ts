import { type EngineLife, isTurning, plain } from "../engine/life.ts";
import { lifeAt } from "../engine/lifeAt.ts";
import type { SignalKind } from "../protocol/signals.ts";
import type { Attribution } from "../session/attribution.ts";
import { engineOf, type SessionState, type Signal } from "../session/state.ts";

/** The reason why a signal no longer counts; `past`: a later report replaced it, `used`: its engine's start used it. */
export type SignalEnd = "unable" | "expired" | "revoked" | "readBackWrong" | "superseded" | "past" | "used";

/** The state of a signal as its sender sees it. Only `counts` may look good; `failed` was refused, or is void. */
export type Fate = { is: "counts" } | { is: "failed" | "over"; why: SignalEnd };

const COUNTS: Fate = { is: "counts" };

const FATES: Readonly<Record<Signal["is"], Fate>> = {
  open: COUNTS,
  answered: COUNTS,
  done: COUNTS,
  unable: { is: "failed", why: "unable" },
  expired: { is: "failed", why: "expired" },
  revoked: { is: "failed", why: "revoked" },
  readBackWrong: { is: "failed", why: "readBackWrong" },
  superseded: { is: "over", why: "superseded" },
};

/** A signal by its number, also when the state no longer holds it. */
interface Named {
  id: number;
  kind: SignalKind;
  engine: number | null;
}

/** Returns what became of a signal. A clearance whose time ran out is void before the record says so. */
export function fateOf(state: SessionState, signal: Signal, now: number): Fate {
  const fate = FATES[signal.is];
  if (fate.is !== "counts") return fate;
  const life = signal.engine === null ? undefined : engineOf(state, signal.engine)?.life;
  if (life && isClearedBy(life, signal) && !isClearedBy(lifeAt(life, now), signal)) return FATES.expired;
  const counts = stands(state, signal);
  if (counts === true || counts === null) return COUNTS;
  return { is: "over", why: isUsed(state, signal) ? "used" : "past" };
}

/** Returns what became of a signal that ended so long ago that the state no longer holds it. */
export function fateOfOld(state: SessionState, signal: Named): Fate {
  return stands(state, signal) ? COUNTS : { is: "over", why: "past" };
}

function isClearedBy(life: EngineLife, { id }: Signal): boolean {
  const now = plain(life);
  return now.is === "clear" && now.clearance.id === id;
}

/** Returns whether a report is the one that counts now; null for a signal that reports nothing lasting. */
function stands(state: SessionState, { id, kind, engine }: Named): boolean | null {
  const is = (by: Attribution | null | undefined) => by?.seq === id;
  switch (kind) {
    case "guardInPlace":
      return is(state.guard);
    case "arcClear":
    case "arcNotClear":
      return is(state.arcs[engine ?? 0]);
    case "brakesSet":
    case "brakesReleased":
      return is(state.brakes);
    case "chocksIn":
    case "chocksOut":
      return is(state.chocks);
    case "onStand":
      return is(state.returning?.onStand);
    case "switchesOff":
      return is(state.returning?.switchesOff);
    case "powerConnected":
    case "powerDisconnected": {
      const power = state.groundPower;
      // Volts read while an engine cranks count beside the steady ones.
      return power.is !== "unknown" && (is(power.by) || (power.is === "on" && is(power.cranking?.by)));
    }
    // These ask, permit, stop or end something, or are a step from which an engine's life went on.
    case "readyToStart":
    case "clearToStart":
    case "cranking":
    case "caught":
    case "started":
    case "startAbandoned":
    case "shutDown":
    case "revokeClearance":
    case "turning":
    case "guardAway":
    case "peopleAtAircraft":
    case "hold":
    case "release":
    case "cut":
    case "cutAll":
    case "resetCut":
    case "fire":
    case "fireAt":
    case "disregard":
    case "fireOut":
    case "connectPower":
    case "disconnectPower":
    case "insertChocks":
    case "removeChocks":
    case "clearOfAircraft":
    case "handlePropeller":
    case "propellerFree":
    case "propellerStill":
    case "coolDown":
    case "idleFaster":
    case "allClear":
    case "negative":
      return null;
  }
}

/**
 * Returns true for the report of a clear arc that the start of its engine used. In doubt it is false: the guard may
 * have gone away, or the post have changed hands, before the start.
 */
function isUsed(state: SessionState, { id, kind, engine, by }: Signal): boolean {
  const found = engine === null ? undefined : engineOf(state, engine);
  if (kind !== "arcClear" || !found || !isTurning(found.life) || state.arcs[found.n]) return false;
  const cranked = found.starter.at(-1)?.on ?? 0;
  const { guard, guardAwayAt, posts, ended } = state;
  return (
    cranked >= by.at &&
    guard?.engine === found.n &&
    (guardAwayAt ?? 0) < by.at &&
    (posts.fireGuard?.since ?? 0) <= by.at &&
    !ended.some((s) => s.kind === "guardInPlace" && s.engine !== found.n && s.id > id)
  );
}
