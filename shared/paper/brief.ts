import { startsLeft } from "../defects/barring.ts";
import { standCaseOf, tooNear } from "../figures/neighbours.ts";
import type { EscapeWay } from "../guard/escape.ts";
import type { HistoryNote } from "../history/notes.ts";
import { engineStands } from "../models/facing.ts";
import { usualOrder } from "../plan/usualOrder.ts";
import { neededPosts } from "../posts/needed.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { Purpose } from "../protocol/stages.ts";
import { purposeOf, type SessionState } from "../session/state.ts";
import type { Drill } from "../types/drill.ts";
import type { AircraftType } from "../types/schema.ts";
import type { OilDilution } from "../types/stopping.ts";
import { stateIn } from "../words/authored.ts";
import { briefWords } from "../words/brief.ts";
import { deferralWords } from "../words/deferral.ts";
import type { BriefWords } from "../words/en/brief.ts";
import { equipmentLines } from "../words/equipment.ts";
import { sayNote } from "../words/history.ts";
import type { Language } from "../words/language.ts";
import { wordsOf } from "../words/piece.ts";
import { written } from "../words/quantity.ts";
import type { Say } from "../words/say.ts";
import { workedBook } from "../words/worked.ts";
import { escapeWays, escapeWaysBack, receptacleWay } from "./escape.ts";
import { type SignalRow, signalRows } from "./signals.ts";

/** A person who may be given a post. */
export interface BriefPerson {
  id: string;
  name: string;
  mayHold: readonly Post[];
}

export interface CrewRow {
  post: Post;
  needed: boolean;
  planned: string | null;
  holder: string | null;
  briefed: boolean;
  /** Other people qualified for the post, who could take it over. */
  others: string[];
}

export interface OrderRow {
  n: number;
  /** E.g. "starboard, inboard". */
  stands: string;
  /** Accessories that this engine is the first to drive. */
  brings: string[];
  reasons: string[];
}

export interface FireSide {
  side: string;
  engines: number[];
  /** The side from which the guard approaches. */
  approach: string;
}

export interface Brief {
  /** The language in which it is written. */
  language: Language;
  session: string;
  aircraft: string;
  place: string;
  stage: string;
  type: Pick<AircraftType, "id" | "version" | "name" | "author" | "approvedBy" | "note">;
  purpose: Purpose;
  order: number[];
  usualOrder: boolean;
  orderSource: string;
  /** Each engine of the order: as it is started, or in a return as it is stopped. */
  starts: OrderRow[];
  /** The cool-down, and who reports a propeller still; empty for a start. */
  stopping: string[];
  crew: CrewRow[];
  power: string[];
  /** The equipment, with the facts of that day. */
  equipment: string[];
  signals: SignalRow[];
  fire: string[];
  stopTimes: string;
  fireSides: FireSide[];
  fireCards: Drill[];
  chockRule: string[];
  escapes: { engine: number; words: string }[];
  receptacle: string;
  whoStops: string;
  openDefects: string[];
  /** What the aircraft's engines do otherwise than before, by their last starts. */
  notes: string[];
  /** Planned neighbours in words, and those that are too near. */
  near: string[];
  tooNear: string[];
  caution: string;
}

/** Returns the brief of a session as it is planned now, in words, without layout. */
export function briefOf(
  planned: SessionState,
  people: readonly BriefPerson[],
  say: Say,
  notes: readonly HistoryNote[] = [],
): Brief {
  const state = stateIn(planned, say.language);
  const { type, order } = state;
  const { id, version, name, author, approvedBy, note } = type;
  const words = briefWords(say.language);
  const inboard = type.conditions.includes("inboardStopped");
  const purpose = purposeOf(state);
  const returns = purpose === "return";
  const usual = usualOrder(type, purpose);
  const chocks = returns ? words.chocksReturn : words.chocks;
  return {
    language: say.language,
    session: state.id,
    aircraft: state.aircraft,
    place: state.place,
    stage: say.stage(state.stage),
    type: { id, version, name, author, approvedBy, note },
    purpose,
    order,
    usualOrder: order.join() === usual.filter((n) => !returns || order.includes(n)).join(),
    orderSource: (returns ? (type.stopping?.orderSource ?? type.orderSource) : type.orderSource).text,
    starts: order.map((n, i) =>
      returns ? stopRow(state, n, order.slice(i + 1), say) : startRow(state, n, order.slice(0, i), say),
    ),
    stopping: returns ? stoppingWords(type, words) : [],
    crew: POSTS.map((post) => crewRow(state, people, post)),
    power: powerWords(state, words),
    equipment: equipmentLines(state.equipment ?? [], say.language),
    signals: signalRows(say),
    fire: [words.standsBy[purpose], ...words.fire],
    stopTimes: words.stopTimes(type.timing.stop.value, type.timing.stopEscalate.value),
    fireSides: fireSides(type, say),
    fireCards: type.drills.filter((d) => d.triggers.some((t) => t.startsWith("fire:"))),
    chockRule: inboard ? [...chocks, words.chocksInboard] : chocks,
    escapes: (returns ? escapeWaysBack(type, order) : escapeWays(type, order)).map((way) => ({
      engine: way.engine,
      words: escapeWords(type, way, say),
    })),
    receptacle: receptacleWay(type) === "ahead" ? words.receptacleAhead : words.receptacleAft,
    whoStops: stopperOf(state, words),
    openDefects: state.defects.map((d) => {
      const said = d.engine === null ? words.defect(d.words) : words.defectAt(d.engine, d.words);
      if (d.mended !== undefined) {
        const name = say.person(d.mended.by.name);
        return (d.barsStart ? words.mendedBars : words.mended)(said, name);
      }
      if (!d.barsStart) return said;
      if (d.deferred === undefined) return words.bars(said);
      const { until = null, by } = d.deferred;
      const left = deferralWords(until, startsLeft(d.deferred, d.startedSince), say.language);
      return words.deferred(said, left, say.person(by.name));
    }),
    notes: notes.map((note) => sayNote(note, say.language)),
    near: (state.neighbours ?? []).map((n) =>
      words.nearIs(n.name, words.kinds[n.kind], n.bearingDeg, written(n.distance), written(n.across)),
    ),
    tooNear: tooNear(standCaseOf(state)).map((t) => words.tooNear(wordsOf(workedBook(say.language)(t)))),
    caution: say.caution,
  };
}

/** Returns an engine's place in words that are true from every viewpoint. */
export function standsWords(type: Pick<AircraftType, "engines">, n: number, say: Say): string {
  const stands = engineStands(n, type.engines.length);
  return stands.side === "centre" ? briefWords(say.language).centreLine : say.stands(stands);
}

function startRow({ type, order }: SessionState, n: number, before: readonly number[], say: Say): OrderRow {
  const words = briefWords(say.language);
  const driven = (engine: number) => type.engines.find((e) => e.n === engine)?.accessories ?? [];
  const have = new Set(before.flatMap(driven));
  const own = driven(n);
  const brings = own.filter((a) => !have.has(a)).map(accessoryWords);
  const more = own.filter((a) => have.has(a)).map(accessoryWords);
  const reasons = [
    ...(brings.length > 0 ? [words.brings(brings.join(", "))] : []),
    ...(more.length > 0 ? [words.adds(more.join(", "))] : []),
    ...(own.length === 0 ? [words.drivesNothing] : []),
    ...againstUsual(type.defaultOrder, order, n, words.usualStart, words),
  ];
  return { n, stands: standsWords(type, n, say), brings, reasons };
}

/** @param after the engines that still turn once this one is stopped */
function stopRow({ type, order }: SessionState, n: number, after: readonly number[], say: Say): OrderRow {
  const words = briefWords(say.language);
  const driven = (engine: number) => type.engines.find((e) => e.n === engine)?.accessories ?? [];
  const left = new Set(after.flatMap(driven));
  const takes = driven(n)
    .filter((a) => !left.has(a))
    .map(accessoryWords);
  const beside =
    type.conditions.includes("inboardStopped") && engineStands(n, type.engines.length).span === "inboard";
  const usual = usualOrder(type, "return").filter((e) => order.includes(e));
  const reasons = [
    ...(takes.length > 0 ? [words.takes(takes.join(", "))] : [words.takesNothing]),
    ...(beside ? [words.besideWheels] : []),
    ...againstUsual(usual, order, n, words.usualStop, words),
  ];
  return { n, stands: standsWords(type, n, say), brings: [], reasons };
}

function againstUsual(
  usual: readonly number[],
  order: readonly number[],
  n: number,
  usualPlace: (nth: number) => string,
  words: BriefWords,
): string[] {
  const at = usual.indexOf(n);
  if (at === order.indexOf(n)) return [words.asUsual];
  return at < 0 ? [words.notUsual] : [usualPlace(at + 1)];
}

/** Returns what the type asks of stopping: time and figures at idle, who sees a propeller still, and hands. */
function stoppingWords({ stopping, gauges }: AircraftType, words: BriefWords): string[] {
  if (!stopping) return [];
  const { atIdle, gauges: figures = [] } = stopping.coolDown ?? {};
  return [
    ...(atIdle ? [words.idle(written(atIdle))] : []),
    ...figures.map(({ gauge, atMost }) =>
      words.idleFigure(gauges.find((g) => g.id === gauge)?.name ?? gauge, written(atMost)),
    ),
    ...(atIdle && figures.length > 0 ? [words.later] : []),
    ...(stopping.oilDilution
      ? [
          words.dilution(written(stopping.oilDilution.noneFrom)),
          ...dilutionSteps(stopping.oilDilution, words),
        ]
      : []),
    words.stillBy[stopping.still.by],
    words.handsLast,
  ];
}

/** Returns each step of the oil dilution, and the oil pressure below which it is stopped. */
function dilutionSteps({ steps, leastPressure }: OilDilution, words: BriefWords): string[] {
  return [
    ...steps.map((s) => words.dilutionStep(written(s.downTo), written(s.percent), written(s.time))),
    ...(leastPressure ? [words.dilutionLeast(written(leastPressure))] : []),
  ];
}

/** Turns "vacuumPump" into the words a person says. */
function accessoryWords(id: string): string {
  return id.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
}

function crewRow(state: SessionState, people: readonly BriefPerson[], post: Post): CrewRow {
  const holder = state.posts[post];
  const planned = state.crew[post];
  const taken = holder?.id ?? planned?.id;
  return {
    post,
    needed: neededPosts(state).includes(post),
    planned: planned?.name ?? null,
    holder: holder?.name ?? null,
    briefed: holder?.briefed ?? false,
    others: people.filter((p) => p.mayHold.includes(post) && p.id !== taken).map((p) => p.name),
  };
}

function powerWords({ type, powerSource }: SessionState, words: BriefWords): string[] {
  const { steadyMin, steadyMax } = type.groundPower;
  if (powerSource === "batteries") return [words.batteries];
  return [words.steady(steadyMin.value, written(steadyMax)), words.plug];
}

function fireSides(type: AircraftType, say: Say): FireSide[] {
  const words = briefWords(say.language);
  return (["port", "centre", "starboard"] as const)
    .map((side) => ({
      side: side === "centre" ? words.centreLine : say.stands({ side, span: null }),
      engines: type.engines.map((e) => e.n).filter((n) => engineStands(n, type.engines.length).side === side),
      approach: words.approach[side],
    }))
    .filter((s) => s.engines.length > 0);
}

const numbers = (list: readonly number[], words: BriefWords) =>
  list.length === 1
    ? words.engine(list[0] ?? 0)
    : words.engines(list.slice(0, -1).join(", "), list.at(-1) ?? 0);

/** Returns the way out during one start, in words. */
function escapeWords(type: Pick<AircraftType, "engines">, way: EscapeWay, say: Say): string {
  const words = briefWords(say.language);
  const some = way.turning.length > 0 ? numbers(way.turning, words) : null;
  const turns =
    some === null ? words.nothingTurns : (way.turning.length === 1 ? words.turns : words.turn)(some);
  const to = say.stands({ side: way.side === "starboard" ? "starboard" : "port", span: null });
  const whole = words.way(way.engine, standsWords(type, way.engine, say), turns);
  return way.way === "outboard"
    ? words.outboard(whole, to)
    : words.ahead(whole, to, numbers(way.closedBy, words));
}

function stopperOf({ crew, posts }: SessionState, words: BriefWords): string {
  const name = posts.supervisor?.name ?? crew.supervisor?.name;
  return name === undefined ? words.noStopper : words.stopper(name);
}
