import { neededPosts } from "../conditions/postsHeld.ts";
import { engineStands } from "../models/facing.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { Drill } from "../types/drill.ts";
import type { AircraftType } from "../types/schema.ts";
import type { Language } from "../words/language.ts";
import { written } from "../words/quantity.ts";
import type { Say } from "../words/say.ts";
import { type EscapeWay, escapeWays, receptacleWay } from "./escape.ts";
import { CHOCK_RULE, CHOCK_RULE_INBOARD } from "./fixedWords.ts";
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
  /** Others qualified for it, to whom it may be handed over. */
  others: string[];
}

export interface OrderRow {
  n: number;
  /** E.g. "starboard, inboard". */
  stands: string;
  /** What no engine before it drives, and it does. */
  brings: string[];
  reasons: string[];
}

export interface FireSide {
  side: string;
  engines: number[];
  /** Where the guard comes from. */
  approach: string;
}

export interface Brief {
  /** The language it is written in. */
  language: Language;
  session: string;
  aircraft: string;
  place: string;
  stage: string;
  type: Pick<AircraftType, "id" | "version" | "name" | "author" | "approvedBy" | "note">;
  order: number[];
  usualOrder: boolean;
  orderSource: string;
  starts: OrderRow[];
  crew: CrewRow[];
  power: string[];
  signals: SignalRow[];
  stopTimes: string;
  fireSides: FireSide[];
  fireCards: Drill[];
  chockRule: string[];
  escapes: { engine: number; words: string }[];
  receptacle: string;
  whoStops: string;
  openDefects: string[];
  caution: string;
}

/** The brief of a session as it is planned now, in words, before it is laid out. */
export function briefOf(state: SessionState, people: readonly BriefPerson[], say: Say): Brief {
  const { type, order } = state;
  const { id, version, name, author, approvedBy, note } = type;
  const inboard = type.conditions.includes("inboardStopped");
  return {
    language: say.language,
    session: state.id,
    aircraft: state.aircraft,
    place: state.place,
    stage: say.stage(state.stage),
    type: { id, version, name, author, approvedBy, note },
    order,
    usualOrder: order.join() === type.defaultOrder.join(),
    orderSource: type.orderSource.text,
    starts: order.map((n, i) => startRow(state, n, order.slice(0, i))),
    crew: POSTS.map((post) => crewRow(state, people, post)),
    power: powerWords(state),
    signals: signalRows(say),
    stopTimes: `An answer to a stop is due within ${type.timing.stop.value} s; without one the supervisor is told after ${type.timing.stopEscalate.value} s.`,
    fireSides: fireSides(type),
    fireCards: type.drills.filter((d) => d.triggers.some((t) => t.startsWith("fire:"))),
    chockRule: inboard ? [...CHOCK_RULE, CHOCK_RULE_INBOARD] : [...CHOCK_RULE],
    escapes: escapeWays(type, order).map((way) => ({ engine: way.engine, words: escapeWords(type, way) })),
    receptacle: receptacleWords(type),
    whoStops: stopperOf(state),
    openDefects: state.defects.map(
      (d) =>
        `${d.engine === null ? "" : `Number ${d.engine}: `}${d.words}${d.barsStart ? " (bars the start)" : ""}`,
    ),
    caution: say.caution,
  };
}

/** Where an engine stands, in words that hold from wherever one looks. */
export function standsWords(type: Pick<AircraftType, "engines">, n: number): string {
  const { side, span } = engineStands(n, type.engines.length);
  if (side === "centre") return "centre line";
  return span === null ? side : `${side} ${span}`;
}

function startRow({ type, order }: SessionState, n: number, before: readonly number[]): OrderRow {
  const driven = (engine: number) => type.engines.find((e) => e.n === engine)?.accessories ?? [];
  const have = new Set(before.flatMap(driven));
  const own = driven(n);
  const brings = own.filter((a) => !have.has(a)).map(accessoryWords);
  const more = own.filter((a) => have.has(a)).map(accessoryWords);
  const at = type.defaultOrder.indexOf(n);
  const place = order.indexOf(n);
  const reasons = [
    ...(brings.length > 0 ? [`first to bring ${brings.join(", ")}`] : []),
    ...(more.length > 0 ? [`adds ${more.join(", ")}`] : []),
    ...(own.length === 0 ? ["drives nothing the others wait for"] : []),
    ...(at === place
      ? ["as usual on this type"]
      : at < 0
        ? ["not in the usual order"]
        : [`usually start ${at + 1}`]),
  ];
  return { n, stands: standsWords(type, n), brings, reasons };
}

/** "vacuumPump" as a person says it. */
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

function powerWords({ type, powerSource }: SessionState): string[] {
  const { steadyMin, steadyMax } = type.groundPower;
  if (powerSource === "batteries") return ["The aircraft's own batteries. No cart is connected."];
  return [
    `Ground power, steady between ${steadyMin.value} and ${written(steadyMax)}. Outside: say so, and hold.`,
    "Output off before the plug goes in or out. Connect and disconnect on the cockpit's leave alone.",
  ];
}

function fireSides(type: AircraftType): FireSide[] {
  const of = (side: string) =>
    type.engines.map((e) => e.n).filter((n) => engineStands(n, type.engines.length).side === side);
  return [
    { side: "port", engines: of("port"), approach: "From the port wing tip or from ahead." },
    { side: "centre line", engines: of("centre"), approach: "From ahead, to port of the propeller." },
    { side: "starboard", engines: of("starboard"), approach: "From the starboard wing tip or from ahead." },
  ].filter((s) => s.engines.length > 0);
}

const numbers = (list: readonly number[]) =>
  list.length === 1 ? `number ${list[0]}` : `numbers ${list.slice(0, -1).join(", ")} and ${list.at(-1)}`;

/** One start's way out, in words. */
export function escapeWords(type: Pick<AircraftType, "engines">, way: EscapeWay): string {
  const head = `Number ${way.engine} (${standsWords(type, way.engine)})`;
  const turns =
    way.turning.length === 0
      ? "nothing turns yet"
      : `${numbers(way.turning)} ${way.turning.length === 1 ? "turns" : "turn"}`;
  const to = way.side === "starboard" ? "starboard" : "port";
  return way.way === "outboard"
    ? `${head}, ${turns}: straight out to ${to}, ahead of the wing and past its tip.`
    : `${head}, ${turns}: stand and leave straight ahead of the propellers. The way out to ${to} is closed: it leads through the arc of ${numbers(way.closedBy)}.`;
}

function receptacleWords(type: AircraftType): string {
  return receptacleWay(type) === "ahead"
    ? "Ground power, at the receptacle: straight ahead past the nose. The receptacle lies ahead of every propeller; never go aft between them."
    : "Ground power, at the receptacle: aft along the fuselage and past the tail. Propellers lie ahead of the receptacle; never go forward or sideways in front of one.";
}

function stopperOf({ crew, posts }: SessionState): string {
  const name = posts.supervisor?.name ?? crew.supervisor?.name;
  return name === undefined
    ? "The supervisor turns spectators back; nobody is named for that post yet."
    : `${name}, as supervisor, turns spectators back.`;
}
