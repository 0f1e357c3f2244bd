import type { KnownStanding } from "../aircraft/known.ts";
import type { AlertState } from "../alerts/machine.ts";
import type { CardAnswer } from "../card/answer.ts";
import { type Engine, plain } from "../engine/life.ts";
import type { LeaveOut, Service } from "../leaves/services.ts";
import type { AlertKind } from "../protocol/alerts.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { Equipment } from "../protocol/equipment.ts";
import type { VoidCause } from "../protocol/events.ts";
import type { Field } from "../protocol/field.ts";
import type { StandNeighbour } from "../protocol/neighbours.ts";
import type { Post } from "../protocol/posts.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { Rehearsal } from "../protocol/rehearsal.ts";
import type { SeenAside } from "../protocol/seenAside.ts";
import type { Answer, Channel, FirePlace, SignalKind } from "../protocol/signals.ts";
import type { Purpose, Stage } from "../protocol/stages.ts";
import type { Deferral, FireWord, Mended } from "../protocol/standing.ts";
import type { Instrument } from "../readings/instrument.ts";
import type { AircraftType } from "../types/schema.ts";
import type { SeenFlash, StationReport, Weather } from "../weather/weather.ts";
import type { Attribution, Reading } from "./attribution.ts";

export interface Holder {
  id: string;
  name: string;
  device: string;
  since: number;
  briefed: boolean;
  /** Time of this person's last touch. */
  touchedAt: number;
  currentUntil: number | null;
}

/** The person who may take a stop back as a slip, the device, and the last moment, server milliseconds. */
export interface Slip {
  person: string;
  device: string;
  until: number;
}

export interface Hold {
  id: number;
  /** The person who raised it; the post is null for an observer. */
  by: Attribution;
  person: string | null;
  note: string | null;
  /** The posts whose silence made the system raise it. */
  silent?: Post[];
  /** Absent where nobody can take it back. */
  slip?: Slip;
}

export interface Cut {
  id: number;
  by: Attribution;
  person: string;
  /** Null means all engines. */
  engine: number | null;
  /** Time at which the cockpit reported the engine or engines stopped. */
  doneAt: number | null;
  /** Absent where nobody can take it back. */
  slip?: Slip;
}

export interface Fire {
  id: number;
  by: Attribution;
  engine: number | null;
  place: FirePlace;
  /** Later words of where it burns, oldest first; `heard` is the event that told this session. Absent without any. */
  said?: (FireWord & { heard: number })[];
  /** The first of the two people who must report the fire out. */
  outBy: { person: string; device: string; name: string; at: number } | null;
  /** Absent where nobody can take it back. */
  slip?: Slip;
}

export interface SignalAnswer {
  answer: Answer;
  at: number;
  name: string;
  channel: Channel;
  /** A read-back of another engine than the one that was cleared: the number that was read back. */
  wrong?: number;
}

/** One addressed message, while it is open and for a short while after. */
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
  /** Time at which each post's panel showed it. The device reports this, never the person. */
  delivered: Partial<Record<Post, number>>;
  is: "open" | "answered" | "done" | "unable" | "expired" | "revoked" | "readBackWrong" | "superseded";
  /** Next moment at which something happens if no answer comes; null when nothing more does. */
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
  /** True while its cause is there. */
  active: boolean;
  /** Its state at each post: one post's acknowledgement does not silence another's. */
  posts: Partial<Record<Post, AlertState>>;
  shelvedUntil: Partial<Record<Post, number>>;
  /** Time at which it sounds again if it is still unacknowledged. */
  againAt: number;
  /** The reason why the clearance ended, if the alert is about one. */
  voided?: VoidReason;
}

export interface VoidReason {
  cause: VoidCause;
  /** The conditions that were no longer met, for that cause. */
  unmet: ConditionReport[];
}

/** A clearance that ended without use and is not yet said to the posts. */
export interface VoidedClearance extends VoidReason {
  id: number;
  engine: number;
  /** The post whose own act ended it; null if that was nobody at a post. */
  by: Post | null;
}

/** A condition set aside for one engine's next clearance, by two people on two devices. */
export interface Override {
  id: number;
  condition: ConditionId;
  engine: number;
  epoch: number;
  first: { person: string; device: string; name: string; at: number; reason: string };
  second: { person: string; name: string; at: number; reason: string } | null;
  /** The finding when the first person asked. Absent in older records. */
  seen?: SeenAside;
}

/** One person's request to abandon the session, for a second person to agree to. */
export interface AbandonAsked {
  at: number;
  epoch: number;
  person: string;
  device: string;
  name: string;
  reason: string;
}

export interface Defect {
  id: string;
  words: string;
  engine: number | null;
  barsStart: boolean;
  by: Attribution;
  /** Its number in the aircraft's record, if it came from there. */
  no?: number;
  /** While it lasts, the defect bars nothing. Absent without any. */
  deferred?: Deferral;
  /** Other sessions that have used up a start of the deferral. */
  startedSince?: string[];
  /** Absent unless it waits for its inspection by another person. */
  mended?: Mended;
}

/** A defect that was closed in this session, with what was done. */
export interface ClosedDefect {
  id: string;
  reason: string;
  by: Attribution;
}

/** An open drill: the steps that each post has done or left. */
export interface DrillRun {
  id: number;
  drill: string;
  engine: number | null;
  ref: number | null;
  at: number;
  steps: Record<Post, ({ done: boolean; at: number } | null)[]>;
}

/** The crew's leave for one service action. It ends with its epoch. */
export interface Authority {
  signal: number;
  at: number;
  epoch: number;
  name: string;
}
export type GroundPower =
  | { is: "unknown" }
  /** `lost`: it was on and went without the crew's leave; the plan has not been changed to batteries since. */
  | { is: "off"; by: Attribution; lost?: true }
  | {
      is: "on";
      volts: Quantity;
      by: Attribution;
      /**
       * Volts read while an engine was cranked. Another band applies to them, and they do not show the steady volts.
       */
      cranking?: { volts: Quantity; by: Attribution };
      /** Every volts reading since power came on, oldest first, if the type judges them over time. */
      read?: { at: number; volts: number }[];
    };

/** One piece of equipment, with the facts of the day. `shown`: who read its label at the stand, and when. */
export interface StandEquipment {
  facts: Equipment;
  shown?: Attribution;
}

export interface CheckRecord {
  /** The post that recorded it, if that was not the type's post for the check; null for a person without a post. */
  post?: Post | null;
  reading: Quantity | null;
  good: boolean;
  at: number;
  name: string;
  note: string | null;
  /** Volts that are no volts at rest: ground power was on, or an engine was cranked or turning. */
  loaded?: true;
}

/** The state of an aircraft that comes back to be stopped. */
export interface Returning {
  /** The marshaller's word that it stands on its place. */
  onStand: Attribution | null;
  /** Since when the engines idle for their cool-down. */
  coolingSince: number | null;
  /** The cockpit's word that the switches were proved off. It ends when an engine turns again. */
  switchesOff: Attribution | null;
  /** Engines whose cool-down was cut short and for which nobody has written the reason yet. */
  remarksDue: number[];
}

/** The whole state of a session. Plain JSON; the server, every panel and the verifier hold the same bytes. */
export interface SessionState {
  v: 1;
  id: string;
  /** Number of the last event. */
  seq: number;
  at: number;
  aircraft: string;
  place: string;
  type: AircraftType;
  /** Present in a rehearsal: there is no real aircraft, and nothing here counts as a start. */
  rehearsal?: Omit<Rehearsal, "played">;
  /** In a rehearsal that was taken back: the rehearsal in which it goes on. */
  wentBackTo?: string;
  /** Present in a session that stops an aircraft that comes back; absent in a start. */
  returning?: Returning;
  /** The engines in the order in which they are started; in a return, in which they are stopped. */
  order: number[];
  powerSource: "groundPower" | "batteries";
  /** Heading of the nose, degrees, and the field's elevation, feet. */
  headingDeg?: number;
  elevationFt?: number;
  /** The neighbours, as planned. */
  neighbours?: StandNeighbour[];
  /** The equipment of this start, as planned and as shown at the stand. Absent when there is none. */
  equipment?: StandEquipment[];
  orderAdvice?: { order: number[]; extra: number | null };
  crew: Record<Post, { id: string; name: string } | null>;
  stage: Stage;
  stageSince: number;
  posts: Record<Post, Holder | null>;
  offers: Record<Post, { to: string; by: string; at: number } | null>;
  /** Other aircraft at which the supervisor holds that post in an open session. Absent when there is none. */
  supervisesAlso?: string[];
  /** Rises with every hold, fire, cut, change of post, restart and clock step. */
  epoch: number;
  engines: Engine[];
  /** The engine at which the guard stands, and the turning engine whose arc lay on the way there, if one did. */
  guard: (Attribution & { engine: number; crossed: number | null }) | null;
  /** Somebody has hands on this engine's propeller; ignition was confirmed off. */
  handling: {
    engine: number;
    by: Attribution;
    /** The post whose hands they are, if it asked for them. */
    hands?: Post;
    /** The propeller has turned under these hands: they count no blades any more. */
    turned?: true;
  } | null;
  /** The last time the guard reported being away. A hand signal seen before then does not count. */
  guardAwayAt?: number;
  arcs: Record<number, Attribution & { clear: boolean }>;
  brakes: (Attribution & { set: boolean; pressure: Quantity | null }) | null;
  chocks: (Attribution & { in: boolean }) | null;
  groundPower: GroundPower;
  /** The newest meter's trace of the present ground power. */
  voltTrace?: {
    by: Attribution;
    endedAt: number;
    samples: { ms: number; volts: number }[];
    cranking: { from: number; to: number }[];
  };
  /** Things at the aircraft that come from elsewhere; absent until the session is told of them. */
  standing?: KnownStanding;
  authorities: Record<Service, Authority | null>;
  /** Leaves on which people may be at the aircraft; no epoch ends them. Absent when there is none. */
  leavesOut?: LeaveOut[];
  /** Time at which the cockpit answered the supervisor's all clear; any stop takes it back. */
  allClearAt: number | null;
  holds: Hold[];
  cuts: Cut[];
  fires: Fire[];
  signals: Signal[];
  /** The last signals that ended, newest last, at most twelve. */
  ended: Signal[];
  alerts: Alert[];
  /** At most one for each engine. Absent when each was said. */
  voided?: VoidedClearance[];
  overrides: Override[];
  /** The newest request to abandon that needed a second person. */
  abandon?: AbandonAsked;
  defects: Defect[];
  /** Another person inspects each mended defect. Absent where the house does not ask for it. */
  inspectsDefects?: true;
  /** Absent while none was closed. */
  defectsClosed?: ClosedDefect[];
  drills: DrillRun[];
  /** Fires, alerts and blade counts that still exist and have already opened their drill. */
  drillsOpened: number[];
  weather: Weather | null;
  /** The last readings of instruments, by gauge and engine. */
  instruments?: Record<string, Instrument>;
  /** The last report of the field's own station. */
  station?: StationReport;
  /** Flashes reported, oldest first, at most the last fifty. */
  flashes?: SeenFlash[];
  /** Flashes that other sessions on this field reported, oldest first. */
  fieldFlashes?: Field["flashes"];
  /**
   * Since when a start has been live, that is, an engine is between requested and stable. Presence counts from here.
   */
  liveSince: number | null;
  /** Newest reading of each gauge that belongs to no engine. */
  readings: Record<string, Reading>;
  checks: Record<string, CheckRecord>;
  /** Answers of the card that hold, by item, or by item and engine. Absent while there is none. */
  card?: Record<string, CardAnswer>;
  /** The item that was read out last and is not answered yet. */
  cardRead?: { key: string; person: string; name: string; at: number };
}

/** Returns the engine, or undefined when the type has no such number. */
export function engineOf(state: SessionState, n: number): Engine | undefined {
  return state.engines[n - 1];
}

/** Returns true while an engine is between requested and stable: every needed post must then be present. */
export function startLive(state: SessionState): boolean {
  return state.engines.some((e) => {
    const is = plain(e.life).is;
    return is === "requested" || is === "clear" || is === "cranking" || is === "caught" || is === "running";
  });
}

export function purposeOf(state: SessionState): Purpose {
  return state.returning ? "return" : "start";
}

/** Returns true while any hold, cut or fire is open. */
export function stopOpen(state: SessionState): boolean {
  return state.holds.length + state.cuts.length + state.fires.length > 0;
}

export function isOver(state: SessionState): boolean {
  return state.stage === "closed" || state.stage === "abandoned";
}
