import type { RunUpItem } from "../protocol/commands.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { Attribution, Reading } from "../session/attribution.ts";

/**
 * The permission to start one engine. It is used once, and it ends with its epoch, its time or any condition it depends
 * on.
 */
export interface Clearance {
  /** Event number of the clear-to-start signal. */
  id: number;
  issuedBy: Attribution;
  expiresAt: number;
  epoch: number;
  fence: number;
  /** The findings of the conditions when it was given. */
  basis: ConditionReport[];
  readBackAt: number | null;
}

/** The life of an engine, apart from fire. */
export type PlainLife =
  | { is: "waiting" }
  | { is: "requested"; since: number; signal: number }
  | { is: "clear"; since: number; clearance: Clearance }
  | {
      is: "cranking";
      since: number;
      cleared: boolean;
      limitAt: number;
      limitSaid: boolean;
      /** Somebody took the clearance back after it was used. */
      revoked?: true;
    }
  | {
      is: "caught";
      since: number;
      firstOilAt: number | null;
      firstDueAt: number;
      normalDueAt: number;
      firstLateSaid: boolean;
      normalLateSaid: boolean;
      revoked?: true;
    }
  | { is: "running"; since: number; revoked?: true }
  | { is: "stable"; since: number }
  | { is: "shutDown"; since: number; reason: string }
  | { is: "cooling"; since: number; until: number };

/** A fire wraps the engine's life, which continues under it, because the crew may be right to keep cranking. */
export type EngineLife = PlainLife | { is: "fire"; since: number; fire: number; under: PlainLife };

export interface StarterUse {
  on: number;
  off: number | null;
  /** The ladder's limit for this engagement, milliseconds. */
  onMax: number;
  /** Lowest bus volts seen while it was engaged. */
  lowest?: Reading & { from: "busVolts" | "groundPower" };
  /** Lowest bus volts expected when it was engaged. */
  expected?: number;
}

/** Blades turned by hand or by the starter, ignition off. */
export interface BladeCount {
  by: Attribution;
  blades: number;
  resistance: boolean;
}

/** The person who reported the engine stopped; null where it was found stopped. */
export interface Unseen {
  stoppedBy: { person: string; device: string; name: string } | null;
}

export interface Engine {
  n: number;
  life: EngineLife;
  /** Rises with every clearance given for this engine; an older clearance can never act. */
  fence: number;
  attempts: number;
  /** Starter engagements, oldest first, at most the last twelve. */
  starter: StarterUse[];
  blades: BladeCount | null;
  /** Limits of the type that it passed in this session, for the inspection that follows. */
  exceeded: { limit: "starterTime" | "oilFirst" | "oilNormal"; allowed: number; found: number; at: number }[];
  /** It stopped in this session, and nobody has yet seen its propeller still. Absent while it turns. */
  unseen?: Unseen;
  /** The last time it stopped running, here or in an earlier session. */
  lastRanAt: number | null;
  /** Newest reading of each gauge. */
  readings: Record<string, Reading>;
  /**
   * Readings of the warm-up's gauges since the engine caught, and of the cool-down's in a return, oldest first, as many
   * as are kept.
   */
  warmUp?: Record<string, Reading[]>;
  /** The step of the type's idle to which it was set since it caught; absent for the first. */
  idleStep?: number;
  /** Figures of its run-up, the newest of each. */
  runUp?: Partial<Record<RunUpItem, Reading>>;
}

/** Returns an engine's life without any fire. */
export function plain(life: EngineLife): PlainLife {
  return life.is === "fire" ? life.under : life;
}

export function isTurning(life: EngineLife): boolean {
  const is = plain(life).is;
  return is === "cranking" || is === "caught" || is === "running" || is === "stable";
}
