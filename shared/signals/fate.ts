import { type EngineLife, isTurning, plain } from "../engine/life.ts";
import { lifeAt } from "../engine/lifeAt.ts";
import type { Attribution } from "../session/attribution.ts";
import { engineOf, type GroundPower, type SessionState, type Signal } from "../session/state.ts";

/** Why a signal no longer counts; `past`: a later report took its place, `used`: the start of its engine used it. */
export type SignalEnd = "unable" | "expired" | "revoked" | "readBackWrong" | "superseded" | "past" | "used";

/** What became of a signal. Only one that counts may look good; `failed` was refused, or is void. */
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

/** Returns what became of a signal. A clearance whose time ran out is void before the record says so. */
export function fateOf(state: SessionState, signal: Signal, now: number): Fate {
  const fate = FATES[signal.is];
  if (fate.is !== "counts") return fate;
  const engine = signal.engine === null ? undefined : engineOf(state, signal.engine);
  if (engine && isClearedBy(engine.life, signal) && !isClearedBy(lifeAt(engine.life, now), signal))
    return FATES.expired;
  const standing = standingReports(state, signal);
  if (standing === null || standing.includes(signal.id)) return COUNTS;
  const used = signal.kind === "arcClear" && standing.length === 0 && engine && isTurning(engine.life);
  return { is: "over", why: used ? "used" : "past" };
}

function isClearedBy(life: EngineLife, { id }: Signal): boolean {
  const now = plain(life);
  return now.is === "clear" && now.clearance.id === id;
}

/**
 * Returns the numbers of the reports that count now of what this signal reported; null for a signal that reports
 * nothing lasting.
 */
function standingReports(state: SessionState, { kind, engine }: Signal): number[] | null {
  const seqOf = (by: Attribution | null | undefined) => (by ? [by.seq] : []);
  switch (kind) {
    case "guardInPlace":
      return seqOf(state.guard);
    case "arcClear":
    case "arcNotClear":
      return seqOf(state.arcs[engine ?? 0]);
    case "brakesSet":
    case "brakesReleased":
      return seqOf(state.brakes);
    case "chocksIn":
    case "chocksOut":
      return seqOf(state.chocks);
    case "powerConnected":
    case "powerDisconnected":
      return powerReports(state.groundPower);
    default:
      return null;
  }
}

/** Volts read while an engine cranks count beside the steady ones. */
function powerReports(power: GroundPower): number[] {
  if (power.is === "unknown") return [];
  return [power.by.seq, ...(power.is === "on" && power.cranking ? [power.cranking.by.seq] : [])];
}
