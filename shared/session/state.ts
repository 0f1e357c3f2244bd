import type { KnownStanding } from "../aircraft/known.ts";
import type { AlertState } from "../alerts/machine.ts";
import { type Engine, plain } from "../engine/life.ts";
import type { AlertKind } from "../protocol/alerts.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { StandNeighbour } from "../protocol/neighbours.ts";
import type { Post } from "../protocol/posts.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { Answer, Channel, FirePlace, SignalKind } from "../protocol/signals.ts";
import type { Stage } from "../protocol/stages.ts";
import type { AircraftType } from "../types/schema.ts";
import type { SeenFlash, Weather } from "../weather/weather.ts";
import type { Attribution, Reading } from "./attribution.ts";

export interface Holder {
  id: string;
  name: string;
  device: string;
  since: number;
  briefed: boolean;
  /** The last event that took a touch of this person's. */
  touchedAt: number;
  currentUntil: number | null;
}

export interface Hold {
  id: number;
  /** Who raised it; null post for an observer. */
  by: Attribution;
  person: string | null;
  note: string | null;
}

export interface Cut {
  id: number;
  by: Attribution;
  person: string;
  /** Null means all engines. */
  engine: number | null;
  /** When the cockpit reported the engine or engines stopped. */
  doneAt: number | null;
}

export interface Fire {
  id: number;
  by: Attribution;
  engine: number | null;
  place: FirePlace;
  /** The first of the two people who must report it out. */
  outBy: { person: string; device: string; name: string; at: number } | null;
}

export interface SignalAnswer {
  answer: Answer;
  at: number;
  name: string;
  channel: Channel;
}

/** One addressed message, while it lives and for a short while after. */
export interface Signal {
  id: number;
  kind: SignalKind;
  engine: number | null;
  from: Post | null;
  by: Attribution;
  to: Post[];
  /** Posts whose answer closes it. */
  due: Post[];
  channel: Channel;
  ref: number | null;
  note: string | null;
  volts: Quantity | null;
  pressure: Quantity | null;
  answers: Partial<Record<Post, SignalAnswer>>;
  /** When each post's panel showed it: the device's word, never the person's. */
  delivered: Partial<Record<Post, number>>;
  is: "open" | "answered" | "done" | "unable" | "expired" | "revoked" | "readBackWrong" | "superseded";
  /** Next moment something happens if no answer comes, null when nothing more does. */
  dueAt: number | null;
  /** 0 in time, 1 reminded, 2 raised to the supervisor. */
  late: 0 | 1 | 2;
}

/** An abnormal state that needs a person. Routine signals are not alerts. */
export interface Alert {
  id: number;
  kind: AlertKind;
  engine: number | null;
  /** The signal that went unanswered, if that is what it is about. */
  ref: number | null;
  at: number;
  /** Still true. */
  active: boolean;
  /** Its state at each post: one post's acknowledgement does not silence another's. */
  posts: Partial<Record<Post, AlertState>>;
  shelvedUntil: Partial<Record<Post, number>>;
  /** When it sounds again if still unacknowledged. */
  againAt: number;
}

/** A condition set aside for one engine's next clearance, by two people on two devices. */
export interface Override {
  id: number;
  condition: ConditionId;
  engine: number;
  epoch: number;
  first: { person: string; device: string; name: string; at: number; reason: string };
  second: { person: string; name: string; at: number; reason: string } | null;
}

export interface Defect {
  id: string;
  words: string;
  engine: number | null;
  barsStart: boolean;
  by: Attribution;
  /** Its number in the aircraft's record, where it came from there. */
  no?: number;
}

/** A drill being worked: which steps each post has done or left. */
export interface DrillRun {
  id: number;
  drill: string;
  engine: number | null;
  ref: number | null;
  at: number;
  steps: Record<Post, ({ done: boolean; at: number } | null)[]>;
}

/** The crew's leave for one service action, dead with its epoch. */
export interface Authority {
  signal: number;
  at: number;
  epoch: number;
  name: string;
}
export const SERVICES = [
  "connectPower",
  "disconnectPower",
  "insertChocks",
  "removeChocks",
  "handlePropeller",
] as const;
export type Service = (typeof SERVICES)[number];

/** A service at the aircraft, apart from hands on a propeller. */
export type OutService = Exclude<Service, "handlePropeller">;

/** A leave that the crew gave and that was reported neither done nor its people clear. */
export interface LeaveOut {
  service: OutService;
  by: Attribution;
}

export type GroundPower =
  | { is: "unknown" }
  | { is: "off"; by: Attribution }
  | {
      is: "on";
      volts: Quantity;
      by: Attribution;
      /** Read while an engine was cranked: judged by another band, and no sign of the steady volts. */
      cranking?: { volts: Quantity; by: Attribution };
      /** Every volts read since it came on, oldest first, where the type judges them over time. */
      read?: { at: number; volts: number }[];
    };

export interface CheckRecord {
  /** The post that recorded it, where that was not the type's post for the check. */
  post?: Post;
  reading: Quantity | null;
  good: boolean;
  at: number;
  name: string;
  note: string | null;
}

/** Everything a session is. Plain JSON; the server, every panel and the verifier hold the same bytes. */
export interface SessionState {
  v: 1;
  id: string;
  /** Number of the last event. */
  seq: number;
  at: number;
  aircraft: string;
  place: string;
  type: AircraftType;
  order: number[];
  powerSource: "groundPower" | "batteries";
  /** Where the nose points, degrees, and the field's height, feet. */
  headingDeg?: number;
  elevationFt?: number;
  /** What stands near, as planned. */
  neighbours?: StandNeighbour[];
  orderAdvice?: { order: number[]; extra: number | null };
  crew: Record<Post, { id: string; name: string } | null>;
  stage: Stage;
  stageSince: number;
  posts: Record<Post, Holder | null>;
  offers: Record<Post, { to: string; by: string; at: number } | null>;
  /** Rises with every hold, fire, cut, change of post, restart and clock step. */
  epoch: number;
  engines: Engine[];
  /** Where the guard stands, and which turning engine's arc lay on the way there, if one did. */
  guard: (Attribution & { engine: number; crossed: number | null }) | null;
  /** Somebody has hands on this engine's propeller; ignition was confirmed off. */
  handling: { engine: number; by: Attribution } | null;
  arcs: Record<number, Attribution & { clear: boolean }>;
  brakes: (Attribution & { set: boolean; pressure: Quantity | null }) | null;
  chocks: (Attribution & { in: boolean }) | null;
  groundPower: GroundPower;
  /** The newest record of a meter, of the power that is on. */
  voltTrace?: {
    by: Attribution;
    endedAt: number;
    samples: { ms: number; volts: number }[];
    cranking: { from: number; to: number }[];
  };
  /** What stands at the aircraft from elsewhere; absent before the session was told of it. */
  standing?: KnownStanding;
  authorities: Record<Service, Authority | null>;
  /** Leaves on which people may be at the aircraft; no epoch ends them. Absent when there is none. */
  leavesOut?: LeaveOut[];
  /** When the cockpit answered the supervisor's all clear; any stop takes it back. */
  allClearAt: number | null;
  holds: Hold[];
  cuts: Cut[];
  fires: Fire[];
  signals: Signal[];
  /** The last signals that ended, newest last, at most twelve. */
  ended: Signal[];
  alerts: Alert[];
  overrides: Override[];
  defects: Defect[];
  drills: DrillRun[];
  /** Fires, alerts and blade counts, still there, that have opened their drill already. */
  drillsOpened: number[];
  weather: Weather | null;
  /** Flashes reported, oldest first, at most the last fifty. */
  flashes?: SeenFlash[];
  /** Since when a start has been live: some engine between asked for and stable. Presence counts from here. */
  liveSince: number | null;
  /** Newest reading of each gauge that belongs to no engine. */
  readings: Record<string, Reading>;
  checks: Record<string, CheckRecord>;
}

/** The engine, or undefined when the type has no such number. */
export function engineOf(state: SessionState, n: number): Engine | undefined {
  return state.engines[n - 1];
}

/** True while some engine is between asked for and stable: every needed post must then be there. */
export function startLive(state: SessionState): boolean {
  return state.engines.some((e) => {
    const is = plain(e.life).is;
    return is === "requested" || is === "clear" || is === "cranking" || is === "caught" || is === "running";
  });
}

/** True while any hold, cut or fire stands. */
export function stopOpen(state: SessionState): boolean {
  return state.holds.length + state.cuts.length + state.fires.length > 0;
}

export function isOver(state: SessionState): boolean {
  return state.stage === "closed" || state.stage === "abandoned";
}
