import { AS_READ } from "../models/unitChoice.ts";
import type { SessionEvent } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { Stage } from "../protocol/stages.ts";
import { debriefOf } from "../rehearsal/debrief.ts";
import type { Comparison } from "../rehearsal/measures.ts";
import type { SessionState } from "../session/state.ts";
import { signalOf } from "../signals/all.ts";
import { type ComparedTable, sayCompared, whyNotCompared } from "../words/compared.ts";
import { debriefLead, sayDebrief } from "../words/debrief.ts";
import { equipmentLines } from "../words/equipment.ts";
import { type Lookup, lookupOf, sayActor, sayEvent } from "../words/events.ts";
import type { Language } from "../words/language.ts";
import { outcomesOf } from "../words/outcomes.ts";
import type { Say } from "../words/say.ts";
import { aboveLog } from "./aboveLog.ts";
import { type AlertRow, alertLog } from "./alertLog.ts";
import { type DrillRow, drillLog } from "./drillLog.ts";
import { type EngineTimes, engineTimes } from "./engineTimes.ts";
import { type ExchangeRow, exchangeRows } from "./exchange.ts";
import { type CheckRow, checkLog, type VoltsRow, voltsLog } from "./figureLog.ts";
import type { LogRow } from "./logRow.ts";
import { type MeasuredRow, measuredLog } from "./measuredLog.ts";
import { type Moment, momentsOf } from "./moments.ts";
import { type ReturnLog, returnLog } from "./returnLog.ts";
import { type StopRow, stopLog } from "./stopLog.ts";

export interface OverrideRow {
  id: number;
  condition: string;
  engine: number;
  first: { at: number; by: string; reason: string };
  /** Null when nobody agreed. */
  second: { at: number; by: string; reason: string } | null;
  /** Its end in words; null while it is open. */
  ended: string | null;
}

export interface DefectRow {
  id: string;
  words: string;
  engine: number | null;
  barsStart: boolean;
  by: string;
  at: number;
  /** Known before this session. */
  brought: boolean;
  /** The mend, where another person must still inspect it. */
  mended: { at: number; by: string; reason: string } | null;
  closed: { at: number; by: string; reason: string } | null;
}

/** Everything that the printed record says, in words, without layout. */
export interface SessionRecord {
  /** The language in which it is written. */
  language: Language;
  session: string;
  aircraft: string;
  place: string;
  type: { id: string; version: number; name: string; author: string; approvedBy: string | null };
  order: number[];
  powerSource: "groundPower" | "batteries";
  crew: Record<Post, string[]>;
  /** The equipment, with the facts of that day. */
  equipment: string[];
  stages: { stage: Stage; at: number }[];
  plannedAt: number;
  endedAt: number | null;
  /** The attempts to start each engine; of a return, only those in it. */
  engines: EngineTimes[];
  /** Measurements of the starts by instruments. */
  measured: MeasuredRow[];
  /** Null for a start. */
  returned: ReturnLog | null;
  volts: VoltsRow[];
  checks: CheckRow[];
  refusals: LogRow[];
  voided: LogRow[];
  overrides: OverrideRow[];
  exceedances: LogRow[];
  stops: StopRow[];
  alerts: AlertRow[];
  drills: DrillRow[];
  defects: DefectRow[];
  handOvers: LogRow[];
  interruptions: LogRow[];
  exchange: ExchangeRow[];
  events: (LogRow & { cause: number | null; red: boolean })[];
  /** What the crew of a rehearsal did, in words; null for a start. */
  debrief: {
    lead: string[];
    lines: (Omit<LogRow, "by"> & { good: boolean })[];
    /** A sentence in place of the tables; null when there are some. */
    notCompared: string | null;
    compared: ComparedTable[];
  } | null;
  headHash: string;
  caution: string;
}

/**
 * Returns the record of one session.
 * @param headHash the hash of the last event as stored: with it a reader can compare the paper with the file
 * @param compared of a rehearsal that is over: the last runs of its people
 * @throws Error when the events are not one whole session from its plan on
 */
export function recordOf(
  events: readonly SessionEvent[],
  headHash: string,
  say: Say,
  compared: Comparison | null = null,
): SessionRecord {
  const moments = momentsOf(events);
  const state = moments.at(-1)?.after;
  const plan = events[0];
  if (!state || !plan) throw new Error("a record begins with its plan");
  const lookup = lookupOf(events, say);
  const { id, version, name, author, approvedBy } = state.type;
  const over = moments.find(({ after }) => after.stage === "closed" || after.stage === "abandoned");
  const list = (...types: SessionEvent["fact"]["type"][]) =>
    events.filter((e) => types.includes(e.fact.type)).map((e) => row(e, lookup));
  return {
    language: say.language,
    session: state.id,
    aircraft: state.aircraft,
    place: state.place,
    type: { id, version, name, author, approvedBy },
    order: state.order,
    powerSource: state.powerSource,
    crew: crewOf(moments),
    equipment: equipmentLines(state.equipment ?? [], say.language),
    stages: [
      { stage: "plan", at: plan.at },
      ...events.flatMap((e) => (e.fact.type === "stageReached" ? [{ stage: e.fact.stage, at: e.at }] : [])),
    ],
    plannedAt: plan.at,
    endedAt: over?.event.at ?? null,
    engines: state.engines.map((e) => attemptsOf(moments, e.n, state, say)),
    measured: measuredLog(events, say.language),
    returned: returnLog(moments, lookup),
    volts: voltsLog(moments, say),
    checks: checkLog(moments, say),
    refusals: list("refused"),
    voided: list("clearanceVoid", "requestWithdrawn"),
    overrides: overridesOf(events, say),
    exceedances: [...list("exceeded"), ...aboveLog(events, state, say)].sort((a, b) => a.seq - b.seq),
    stops: stopLog(moments, lookup),
    alerts: alertLog(moments, say),
    drills: drillLog(moments, say),
    defects: defectsOf(events, say),
    handOvers: list("postTaken", "postOffered", "postLeft", "briefed"),
    interruptions: list("restarted", "clockStepped"),
    exchange: exchangeRows(events, say),
    events: events.map((e) => ({ ...row(e, lookup), cause: e.cause, red: isRed(e) })),
    debrief: state.rehearsal
      ? {
          lead: debriefLead(state.rehearsal, say),
          lines: debriefOf(events).map((line) => ({
            ...{ seq: line.seq, at: line.at, good: line.good },
            words: sayDebrief(line, state.type, say, AS_READ),
          })),
          notCompared: whyNotCompared(compared, say),
          compared: (compared?.people ?? []).map((one) => sayCompared(one, say)),
        }
      : null,
    headHash,
    caution: say.caution,
  };
}

/** Returns the attempts at one engine. In a return an engine that came in turning was not started here. */
function attemptsOf(moments: readonly Moment[], n: number, state: SessionState, say: Say): EngineTimes {
  const times = engineTimes(moments, n, say.language);
  if (!state.returning) return times;
  return { n, attempts: times.attempts.filter((a) => a.crankedAt !== null) };
}

function row(event: SessionEvent, lookup: Lookup): LogRow {
  const { fact, seq, at } = event;
  const unmet =
    fact.type === "clearanceVoid" ? (fact.unmet ?? []).map((u) => `${lookup.say.condition(u)}.`) : [];
  return {
    seq,
    at,
    words: [sayEvent(event, lookup), ...unmet].join(". ").replace(/\.\./g, "."),
    by: sayActor(event, lookup.say),
  };
}

/** Returns true for the events that nobody may overlook: an override, a limit exceeded, a cut, a fire. */
function isRed({ fact }: SessionEvent): boolean {
  return (
    ["abandonAsked", "overrideAsked", "overrideGiven", "exceeded", "coolDownCut"].includes(fact.type) ||
    (fact.type === "sent" && signalOf(fact.kind).incident)
  );
}

/** Returns everybody who held each post, in order. */
function crewOf(moments: readonly Moment[]): Record<Post, string[]> {
  const crew: Record<Post, string[]> = { cockpit: [], fireGuard: [], groundPower: [], supervisor: [] };
  for (const { after } of moments)
    for (const post of POSTS) {
      const name = after.posts[post]?.name;
      if (name !== undefined && crew[post].at(-1) !== name) crew[post].push(name);
    }
  return crew;
}

function overridesOf(events: readonly SessionEvent[], say: Say): OverrideRow[] {
  const rows = new Map<number, OverrideRow>();
  for (const event of events) {
    const { fact, at, seq } = event;
    const by = sayActor(event, say);
    if (fact.type === "overrideAsked") {
      const { engine, reason } = fact;
      const condition = say.conditionName(fact.condition);
      rows.set(seq, { id: seq, condition, engine, first: { at, by, reason }, second: null, ended: null });
    }
    const known = "override" in fact ? rows.get(fact.override) : undefined;
    if (known && fact.type === "overrideGiven") known.second = { at, by, reason: fact.reason };
    if (known && fact.type === "overrideEnded") known.ended = outcomesOf(say).overrideEnd(fact.why);
  }
  return [...rows.values()];
}

function defectsOf(events: readonly SessionEvent[], say: Say): DefectRow[] {
  const rows = new Map<string, DefectRow>();
  for (const event of events) {
    const { fact, at, seq } = event;
    const by = sayActor(event, say);
    if (fact.type === "planned")
      for (const { name, ...d } of fact.defects ?? [])
        rows.set(d.id, { ...d, by: name, brought: true, mended: null, closed: null });
    if (fact.type === "defectWritten") {
      const { words, barsStart } = fact;
      const id = `${event.session}-${seq}`;
      const engine = fact.engine ?? null;
      rows.set(id, { id, words, engine, barsStart, by, at, brought: false, mended: null, closed: null });
    }
    if (fact.type !== "defectClosed" && fact.type !== "defectMended") continue;
    const known = rows.get(fact.defect);
    if (known) known[fact.type === "defectClosed" ? "closed" : "mended"] = { at, by, reason: fact.reason };
  }
  return [...rows.values()];
}
