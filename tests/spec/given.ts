import { createHash } from "node:crypto";
import type { z } from "zod";
import { ALERTS } from "../../shared/alerts/kinds.ts";
import { type EngineLife, isTurning, plain } from "../../shared/engine/life.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import type { Manifest } from "../../shared/evidence/verify.ts";
import type { AlertKind } from "../../shared/protocol/alerts.ts";
import { actionSchema, type Send } from "../../shared/protocol/commands.ts";
import type { Fact, FactOf, SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Unit } from "../../shared/protocol/quantity.ts";
import type { RefusalReason } from "../../shared/protocol/refusals.ts";
import type { SignalKind } from "../../shared/protocol/signals.ts";
import { type Purpose, type Stage, stageAfter } from "../../shared/protocol/stages.ts";
import type { Standing } from "../../shared/protocol/standing.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { evolve } from "../../shared/session/evolve.ts";
import { engineOf, purposeOf, type SessionState } from "../../shared/session/state.ts";
import {
  act,
  type Person,
  plan,
  recordInstrument,
  type Step,
  tell,
  tellSupervised,
  tick,
  voidPermissions,
} from "../../shared/session/step.ts";
import type { PostElsewhere, ShownEquipment } from "../../shared/session/verdict.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";
import { type Kept, KeptSteps, kept } from "./kept.ts";

export type { Person };

export const sha256 = (text: string) => createHash("sha256").update(text, "utf8").digest("hex");

const person = (id: string, mayHold: readonly Post[], device = `${id}-tablet`): Person => ({
  id,
  name: id[0]?.toUpperCase() + id.slice(1),
  device,
  mayHold,
});

/** The crew: one for each post, an observer with no qualification, and a spare qualified for all. */
export const ada = person("ada", ["cockpit"]);
export const bo = person("bo", ["fireGuard"]);
export const cy = person("cy", ["groundPower"]);
export const di = person("di", ["supervisor"]);
export const ed = person("ed", []);
export const fay = person("fay", POSTS);
export const CREW: Readonly<Record<Post, Person>> = {
  cockpit: ada,
  fireGuard: bo,
  groundPower: cy,
  supervisor: di,
};
export const onDevice = (who: Person, device: string): Person => ({ ...who, device });

export const START = Date.UTC(2026, 5, 1, 9, 0, 0);
const SESSION = "test-session";

/** Returns the purpose of a session that can reach this stage. */
export const purposeAt = (stage: Stage): Purpose =>
  stage === "arrival" || stage === "stopping" || stage === "stowing" ? "return" : "start";

/** An action as a panel writes it, before defaults are filled in. */
export type Say = z.input<typeof actionSchema>;

const PLANS = new KeptSteps<AircraftType>();
const USUAL = new KeptSteps<SessionState>();

export interface Plan {
  type?: AircraftType;
  order?: number[];
  powerSource?: "groundPower" | "batteries";
  purpose?: Purpose;
  /** Optional parts of a plan: the heading, the field's elevation, the times engines ran. */
  more?: Partial<
    Pick<
      FactOf<"planned">,
      "headingDeg" | "elevationFt" | "equipment" | "lastRan" | "neighbours" | "standing"
    >
  >;
  session?: string;
  aircraft?: string;
  now?: number;
}

/**
 * A session told as a story: the earlier actions, the present one, and its result. The story has a clock of its own.
 */
export class Story {
  now = START;
  /** Code of another session of the aircraft, as the server would report it. */
  elsewhere: string | undefined;
  /** A post that the person holds in another session, as the server would report it. */
  postElsewhere: PostElsewhere | undefined;
  /** Name of the currency that bars whoever takes a post, as the server would find it. */
  lapsed: string | undefined;
  /** The piece of equipment that a label names, as the server would find it. */
  equipment: ShownEquipment | undefined;
  standing: Standing | undefined;
  state: SessionState;
  readonly log: SessionEvent[] = [];
  /** The events and the refusal of the last step. */
  last: Step;
  #commands = 0;
  /** True on the usual way to a stage, which other stories go too. */
  #usual = false;

  constructor({
    type = FOUR,
    order = type.defaultOrder,
    powerSource = "groundPower",
    purpose = "start",
    more = {},
    session = SESSION,
    aircraft = "CH-TST",
    now = START,
  }: Plan = {}) {
    this.now = now;
    const crew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
    const fact = {
      type: "planned",
      aircraft,
      place: "North ramp",
      aircraftType: type,
      order,
      powerSource,
      crew,
      ...(purpose === "return" ? { purpose } : {}),
      ...more,
    } as const;
    const mark = this.#mark();
    const { aircraftType: _, ...rest } = fact;
    const begun = PLANS.take(type, { session, rest, now }, () =>
      plan(session, { ...fact, order: [...order] }, di, mark, now),
    );
    this.last = begun.step;
    this.state = begun.step.state;
    this.#keep(begun);
  }

  #mark() {
    this.#commands += 1;
    const id = `00000000-0000-4000-8000-${String(this.#commands).padStart(12, "0")}`;
    return { id, digest: sha256(id), clientAt: this.now };
  }

  #keep({ step, events }: Kept): Step {
    this.log.push(...events);
    this.state = step.state;
    this.last = step;
    return step;
  }

  /** Takes a step, which has this key among the steps from the present state. */
  #take(key: unknown, step: () => Step): Step {
    return this.#keep(this.#usual ? USUAL.take(this.state, key, step) : kept(step()));
  }

  /** Makes one person act. The action passes the protocol's schema first, as a panel's would. */
  does(who: Person, action: Say, validUntil?: number): Step {
    const mark = validUntil === undefined ? this.#mark() : { ...this.#mark(), validUntil };
    const outside = {
      elsewhere: this.elsewhere,
      postElsewhere: this.postElsewhere,
      equipment: this.equipment,
      lapsed: this.lapsed,
      standing: this.standing,
    };
    return this.#take({ who, action, mark, now: this.now, outside }, () =>
      act(this.state, actionSchema.parse(action), who, mark, this.now, outside),
    );
  }

  /** Makes the usual person of a post act. */
  say(post: Post, action: Say): Step {
    return this.does(CREW[post], action);
  }

  send(post: Post, kind: SignalKind, more: Partial<Send> = {}): Step {
    return this.say(post, { type: "send", kind, ...more });
  }

  answer(
    post: Post,
    signal: number,
    answer: "received" | "willComply" | "authorise" | "readBack" | "done" | "unable",
    engine?: number,
  ): Step {
    return this.say(post, { type: "answer", signal, answer, ...(engine === undefined ? {} : { engine }) });
  }

  /** Lets time pass as the server sees it: it wakes at every deadline on the way. */
  wait(seconds: number): this {
    return this.waitMs(Math.round(seconds * 1000));
  }

  waitMs(ms: number): this {
    const end = this.now + ms;
    for (let due = nextDeadline(this.state); due !== null && due <= end; due = nextDeadline(this.state)) {
      this.now = Math.max(this.now, due);
      this.#take(this.now, () => tick(this.state, this.now));
    }
    this.now = end;
    this.#take(this.now, () => tick(this.state, this.now));
    return this;
  }

  /** Lets time pass while the server does not look. */
  unseen(ms: number): this {
    this.now += ms;
    return this;
  }

  /** Tells the session what another session, the ramp page or a supervisor changed in the aircraft's record. */
  hear(standing: Standing): Step {
    this.standing = standing;
    return this.#keep(kept(tell(this.state, standing, this.now)));
  }

  /** Tells the session which other aircraft its supervisor supervises. */
  supervises(...aircraft: string[]): Step {
    return this.#keep(kept(tellSupervised(this.state, aircraft, this.now)));
  }

  /** An instrument or a station sent something. */
  sent(fact: FactOf<"instrumentsRead" | "stationRead">): Step {
    return this.#keep(kept(recordInstrument(this.state, fact, this.now)));
  }

  restart(): Step {
    return this.#keep(kept(voidPermissions(this.state, { type: "restarted" }, this.now)));
  }

  clockStep(by: number): Step {
    this.now += by;
    return this.#keep(kept(voidPermissions(this.state, { type: "clockStepped", by }, this.now)));
  }

  /** Every post is claimed by its usual person. */
  manned(posts: readonly Post[] = POSTS): this {
    const usual = this.#usual;
    this.#usual = true;
    for (const post of posts) this.say(post, { type: "claimPost", post });
    this.#usual = usual;
    return this;
  }

  /** Does everything that the job needs until the session is in `stage`. */
  upTo(stage: Stage): this {
    this.#usual = true;
    while (this.state.stage !== stage) this.#onward();
    this.#usual = false;
    return this;
  }

  /** Does everything that the job needs in its stage, and goes on to the next. */
  #onward(): void {
    this.#finish();
    this.heard();
    const next = stageAfter(this.state.stage, purposeOf(this.state));
    if (next === null) throw new Error("no stage after this");
    const { refusal } = this.say("supervisor", { type: "advance", to: next });
    if (refusal) throw new Error(`${this.state.stage} cannot be left: ${JSON.stringify(refusal)}`);
  }

  #finish() {
    switch (this.state.stage) {
      case "plan":
        this.manned(POSTS.filter((p) => this.state.posts[p] === null));
        return;
      case "brief":
        for (const post of POSTS) this.say(post, { type: "confirmBrief" });
        return;
      case "secure":
        this.send("groundPower", "chocksIn");
        this.brakes();
        this.say("supervisor", { type: "recordCheck", check: "walkRound", good: true });
        this.say("fireGuard", { type: "recordCheck", check: "bottles", good: true });
        return;
      case "powerUp":
        this.say("cockpit", { type: "recordCheck", check: "battery", reading: { value: 25, unit: "V" } });
        return;
      case "groundPower":
        this.say("groundPower", { type: "recordCheck", check: "cart", good: true });
        if (this.state.powerSource === "groundPower") this.power();
        return;
      case "starting":
        for (const n of this.state.order) this.started(n);
        return;
      case "warmUp":
        for (const n of this.state.order) this.reading("oilTemp", n, 45, "degC");
        this.powerOff();
        return;
      case "arrival":
        this.send("supervisor", "onStand");
        this.brakes();
        this.send("groundPower", "chocksIn");
        return;
      case "stopping":
        this.cooled();
        for (const { n, unseen, life } of this.state.engines) if (unseen || isTurning(life)) this.stopped(n);
        this.send("cockpit", "switchesOff");
        return;
      case "stowing":
        return;
      case "release":
        this.brakes();
        this.send("cockpit", "removeChocks");
        this.send("groundPower", "chocksOut");
        this.send("supervisor", "allClear");
        this.heard();
        return;
    }
  }

  /** The engines idle for as long as the type asks, and their gauges are read. */
  cooled(): this {
    const rule = this.state.type.stopping?.coolDown;
    const turning = this.state.engines.filter((e) => isTurning(e.life));
    if (!rule || turning.length === 0) return this;
    this.#must(this.send("cockpit", "coolDown"));
    this.wait(rule.atIdle?.value ?? 0);
    for (const { n } of turning)
      for (const { gauge, atMost } of rule.gauges) this.reading(gauge, n, atMost.value, atMost.unit);
    return this;
  }

  /** The cockpit reports an engine stopped if it turns, and the guard its propeller still. */
  stopped(n: number): this {
    this.send("cockpit", "shutDown", { engine: n });
    this.#must(this.send("fireGuard", "propellerStill", { engine: n }));
    return this;
  }

  /** The cockpit answers every report that waits for it. */
  heard(): this {
    for (const signal of this.state.signals) {
      const report = ["chocksIn", "chocksOut", "powerConnected", "powerDisconnected", "allClear", "onStand"];
      if (report.includes(signal.kind)) this.answer("cockpit", signal.id, "received");
    }
    return this;
  }

  brakes(psi = 1000): Step {
    return this.send("cockpit", "brakesSet", { pressure: { value: psi, unit: "psi" } });
  }

  power(volts = 28): Step {
    this.send("cockpit", "connectPower");
    return this.volts(volts);
  }

  volts(value: number): Step {
    return this.send("groundPower", "powerConnected", { volts: { value, unit: "V" } });
  }

  powerOff(): Step {
    this.send("cockpit", "disconnectPower");
    return this.send("groundPower", "powerDisconnected");
  }

  reading(gauge: string, engine: number, value: number, unit: Unit): Step {
    return this.say("cockpit", { type: "reading", gauge, engine, reading: { value, unit } });
  }

  oil(engine: number, psi: number): Step {
    return this.reading("oilPressure", engine, psi, "psi");
  }

  requested(n: number): this {
    const note = "as the crew agreed";
    this.#must(this.send("cockpit", "readyToStart", { engine: n, note }));
    return this;
  }

  guarded(n: number): this {
    this.#must(this.send("fireGuard", "guardInPlace", { engine: n }));
    this.#must(this.send("fireGuard", "arcClear", { engine: n }));
    return this;
  }

  /** Requests, guards and clears an engine; returns the clearance's number. */
  cleared(n: number): number {
    this.requested(n).guarded(n);
    return this.#must(this.send("supervisor", "clearToStart", { engine: n })).events[0]?.seq ?? 0;
  }

  readBack(n: number): number {
    const clearance = this.cleared(n);
    this.#must(this.answer("cockpit", clearance, "readBack", n));
    return clearance;
  }

  cranking(n: number): number {
    const clearance = this.readBack(n);
    this.#must(this.send("cockpit", "cranking", { engine: n, ref: clearance }));
    return clearance;
  }

  caught(n: number): this {
    this.cranking(n);
    this.wait(8);
    this.#must(this.send("cockpit", "caught", { engine: n }));
    return this;
  }

  running(n: number): this {
    this.caught(n).wait(3);
    this.#must(this.oil(n, 20));
    this.wait(3);
    this.#must(this.oil(n, 60));
    return this;
  }

  started(n: number): this {
    this.running(n).wait(20);
    this.#must(this.send("cockpit", "started", { engine: n }));
    return this;
  }

  /** A start that fails: cranked for this many seconds, then given up. */
  failedStart(n: number, seconds: number): this {
    this.cranking(n);
    this.wait(seconds);
    this.#must(this.send("cockpit", "startAbandoned", { engine: n }));
    return this;
  }

  #must(step: Step): Step {
    if (step.refusal) throw new Error(`refused: ${JSON.stringify(step.refusal)}`);
    return step;
  }

  openSignal(kind: SignalKind): number {
    const signal = this.state.signals.find((s) => s.kind === kind);
    if (!signal) throw new Error(`no open ${kind}`);
    return signal.id;
  }

  life(n: number): EngineLife["is"] {
    return engineOf(this.state, n)?.life.is ?? "waiting";
  }

  turnsUncleared(n: number): boolean {
    const life = plain(engineOf(this.state, n)?.life ?? { is: "waiting" });
    return life.is === "cranking" && !life.cleared;
  }

  underFire(n: number): EngineLife["is"] {
    return plain(engineOf(this.state, n)?.life ?? { is: "waiting" }).is;
  }

  /** Returns a copy of the story that can continue in another way. */
  copy(): Story {
    const twin = new Story({ type: this.state.type });
    twin.log.splice(0, twin.log.length, ...this.log);
    Object.assign(twin, { now: this.now, state: this.state, last: this.last });
    twin.#commands = this.#commands;
    return twin;
  }

  /** The supervisor reports the air: calm, unless `more` says otherwise. */
  air(temperatureC: number, more: Partial<Extract<Say, { type: "recordWeather" }>> = {}): Step {
    return this.say("supervisor", { type: "recordWeather", windKt: 0, temperatureC, ...more });
  }

  /** Returns the facts of the last step. */
  get facts(): Fact[] {
    return this.last.events.map((e) => e.fact);
  }

  get refused(): RefusalReason | null {
    return this.last.refusal?.reason ?? null;
  }

  told<T extends Fact["type"]>(type: T): FactOf<T>[] {
    return this.log.map((e) => e.fact).filter((f): f is FactOf<T> => f.type === type);
  }

  /** Returns the kinds of the alerts raised so far, except those that every stop raises. */
  get alerts(): AlertKind[] {
    return this.told("alertRaised")
      .map((f) => f.kind)
      .filter((kind) => !ALERTS[kind].latching);
  }

  /** Returns the alerts of one kind raised so far. */
  raised(kind: AlertKind): FactOf<"alertRaised">[] {
    return this.told("alertRaised").filter((f) => f.kind === kind);
  }

  replayed(): SessionState {
    return replay(this.log);
  }

  /** Returns the record as it would be exported. */
  export(): { lines: string[]; manifest: Manifest } {
    return exported(this.log);
  }
}

export function replay(log: readonly SessionEvent[]): SessionState {
  const state = log.reduce<SessionState | null>(evolve, null);
  if (state === null) throw new Error("an empty log has no state");
  return state;
}

export function exported(log: readonly SessionEvent[]): { lines: string[]; manifest: Manifest } {
  const session = log[0]?.session ?? "";
  let head = genesis(session, sha256);
  const lines = log.map((event) => {
    const sealed = seal(event, head, sha256);
    head = sealed.hash;
    return sealed.body;
  });
  const manifest: Manifest = {
    format: "chockside-evidence-1",
    session,
    aircraft: "CH-TST",
    events: lines.length,
    head,
    exportedAt: "2026-06-01T10:00:00.000Z",
    caution: "Not an approved record.",
  };
  return { lines, manifest };
}

export const given = (plan: Plan = {}) => new Story(plan);

/** Returns a story whose session can reach this stage: a return for the stages of stopping, otherwise a start. */
export const towards = (stage: Stage, plan: Plan = {}) => given({ ...plan, purpose: purposeAt(stage) });
