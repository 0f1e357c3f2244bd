import { demo } from "../../seed/demo-data.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { isOver, stopOpen } from "../../shared/session/state.ts";
import type { Invariant } from "../search/invariants/invariant.ts";
import { RECORD } from "../search/invariants/record.ts";
import { STOPS } from "../search/invariants/stops.ts";
import { TYPE } from "../search/model.ts";
import { INVARIANTS } from "../search/search.ts";
import { given, onDevice, replay, type Story } from "../spec/given.ts";
import { type Dice, PEOPLE, triedBy } from "../spec/walk.ts";
import { Chance } from "./chance.ts";
import { intent } from "./intents.ts";
import { Network } from "./network.ts";
import { SimPanel } from "./panel.ts";
import { sameBytes } from "./sameBytes.ts";
import { type Server, SimServer, type Watcher } from "./server.ts";
import { StoredServer } from "./stored-server.ts";

/** The result of one run: `fault` is null when every promise held. */
export interface Outcome {
  seed: number;
  fault: string | null;
  events: number;
  accepted: number;
  resent: number;
  /** Tablets that died, restarts of the server, changes of its clock. */
  upsets: number;
}

const STEP_MS = 100;
const BEAT_MS = 2_000;
const SETTLE_MS = 12_000;
/** One seed in this many runs on the server's own sessions and store. */
const STORED_EVERY = 8;

/** The search's small type, for which every invariant is written, with drills. Its limits are seconds long. */
const SMALL = { ...TYPE, drills: demo.types[0]?.drills ?? [] };
const courses = {
  four: ["plan", "secure", "starting", "starting", "starting", "warmUp"],
  small: ["plan", "secure", "starting", "starting"],
} as const;
const begun = new Map<string, Story>();

function story(course: keyof typeof courses, chance: Chance): Story {
  const stages = courses[course];
  const stage = stages[chance.below(stages.length)] ?? "plan";
  const key = `${course} ${stage}`;
  const told = begun.get(key) ?? given(course === "four" ? { order: [3, 4] } : { type: SMALL });
  if (!begun.has(key)) begun.set(key, told.manned().upTo(stage));
  return told;
}

/**
 * Simulates one session over bad sockets. Panels with wrong clocks send whatever their people try, posts change hands,
 * links break and come back, tablets die, the server is killed and its clock is set. Then the network heals. At the end
 * every panel must hold the server's bytes; no command may have acted twice, no accepted one may be missing, no stale
 * one may have been sent, and no step may have broken an invariant of the search.
 */
export async function simulate(seed: number, minutes = 0.5): Promise<Outcome> {
  const run = new Run(seed);
  await run.begin();
  try {
    return await run.outcome(minutes);
  } finally {
    await run.end();
  }
}

class Run {
  readonly #seed: number;
  readonly #chance: Chance;
  readonly #first: Story;
  readonly #invariants: readonly Invariant[];
  readonly #network: Network;
  readonly #panels: SimPanel[];
  /** Panels whose tablet died. */
  readonly #dead: SimPanel[] = [];
  readonly #faults: string[] = [];
  readonly #sent = new Set<string>();
  #server: Server;
  #now: number;
  #commands = 0;
  #resent = 0;
  #upsets = 0;

  constructor(seed: number) {
    this.#seed = seed;
    const chance = new Chance(seed);
    this.#chance = chance;
    const course = chance.is(0.5) ? "small" : "four";
    this.#first = story(course, chance);
    this.#invariants = course === "small" ? INVARIANTS : [...STOPS, ...RECORD];
    const [loss, duplication] = [chance.next() * 0.3, chance.next() * 0.3];
    this.#network = new Network(chance, { loss, duplication, maxDelay: 1 + chance.below(1_500) });
    this.#now = this.#first.now;
    this.#panels = PEOPLE.map((who) => new SimPanel(who, this.#skew()));
    const { log, state } = this.#first;
    this.#server = new SimServer(log, state, (events) => this.#publish(events), this.#watch);
  }

  async begin(): Promise<void> {
    if (this.#seed % STORED_EVERY !== 0) return;
    const { log, state, now } = this.#first;
    this.#server = await StoredServer.of(log, state, (events) => this.#publish(events), now);
  }

  end(): Promise<void> {
    return this.#server.close();
  }

  async outcome(minutes: number): Promise<Outcome> {
    this.#panels.forEach((_, i) => {
      this.#connect(i);
    });
    const end = this.#now + minutes * 60_000;
    while (this.#now < end && this.#faults.length === 0) {
      for (let i = 0; i < this.#panels.length; i += 1) this.#live(i);
      if (this.#chance.is(0.002)) {
        this.#upsets += 1;
        this.#server.setClock(this.#chance.below(8_000) - 4_000, this.#chance.is(0.5), this.#now);
      }
      await this.#turn(this.#chance.is(0.003));
    }
    await this.#heal();
    const record = await this.#server.log();
    this.#compare(record);
    const accepted = this.#panels.reduce((n, p) => n + p.accepted.size, 0);
    return {
      seed: this.#seed,
      fault: this.#faults[0] ?? null,
      events: record.length,
      accepted,
      resent: this.#resent,
      upsets: this.#upsets,
    };
  }

  #skew(): number {
    return this.#chance.below(7_200_000) - 3_600_000;
  }

  #publish(events: SessionEvent[]): void {
    this.#panels.forEach((panel, i) => {
      if (panel.linked) this.#network.send(this.#now, i, () => panel.events(events, this.#now));
    });
  }

  #watch: Watcher = (before, move, step, now) => {
    const broken = this.#invariants.find((i) => !i.holds({ before, move, step, now }));
    if (broken) this.#faults.push(`event ${step.state.seq} breaks ${broken.id}: ${broken.text}`);
  };

  #connect(i: number): void {
    const panel = this.#panels[i];
    if (!panel) return;
    const network = this.#network;
    panel.link(
      {
        command: (command) => {
          if (this.#sent.has(command.id)) this.#resent += 1;
          this.#sent.add(command.id);
          if (command.validUntil !== undefined && this.#now >= command.validUntil)
            this.#faults.push(`${command.id} was sent stale`);
          network.send(this.#now, i, () => {
            this.#server.command(command, panel.who, this.#now, (result) =>
              network.send(this.#now, i, () => panel.answered(command.id, result)),
            );
          });
        },
        watch: (since) =>
          network.send(this.#now, i, () => {
            this.#server.watch(since, this.#now, (sync) =>
              network.send(this.#now, i, () => panel.synced(sync, since, this.#now)),
            );
          }),
      },
      this.#now,
    );
  }

  /** Advances one panel by one step: its link, its tablet, its person's action. */
  #live(i: number): void {
    const panel = this.#panels[i];
    const chance = this.#chance;
    if (!panel) return;
    if (chance.is(0.001)) {
      this.#upsets += 1;
      this.#network.cut(i);
      this.#dead.push(panel);
      const device = `${panel.who.id}-spare-${this.#dead.length}`;
      this.#panels[i] = new SimPanel(onDevice(panel.who, device), this.#skew());
      this.#connect(i);
      return;
    }
    if (panel.linked ? chance.is(0.004) : chance.is(0.04)) {
      this.#network.cut(i);
      if (panel.linked) panel.unlink();
      else this.#connect(i);
    }
    if (!panel.state || !chance.is(0.06)) return;
    const people = this.#panels.map((p) => p.who);
    if (chance.is(0.2)) {
      const action = intent(panel.state, panel.who, people, chance);
      if (action) panel.say(this.#nextId(), action, this.#now);
      return;
    }
    const dice: Dice = [i, chance.below(100_000), chance.below(100_000), chance.below(100_000)];
    const action = triedBy(panel.who, panel.state, dice, this.#now, people);
    if (action) panel.say(this.#nextId(), action, this.#now);
  }

  #nextId(): string {
    this.#commands += 1;
    return `00000001-0000-4000-8000-${String(this.#commands).padStart(12, "0")}`;
  }

  async #turn(killed = false): Promise<void> {
    this.#now += STEP_MS;
    const now = this.#now;
    this.#server.wake(now);
    this.#network.arrive(now);
    if (killed) {
      this.#upsets += 1;
      await this.#server.restart(now);
    }
    await this.#server.settled();
    const head = this.#server.state.seq;
    for (const [i, panel] of this.#panels.entries()) {
      if (panel.linked && now % BEAT_MS < STEP_MS) this.#network.send(now, i, () => panel.beat(head, now));
    }
    for (const panel of this.#panels) {
      panel.run(now);
      if ((panel.state?.seq ?? 0) > head) this.#faults.push(`${panel.who.id} is ahead of the server`);
    }
    const { state } = this.#server;
    if (stopOpen(state) && state.engines.some((e) => e.life.is === "clear"))
      this.#faults.push("a clearance stands under a stop");
  }

  async #heal(): Promise<void> {
    this.#network.weather = { loss: 0, duplication: 0, maxDelay: 20 };
    this.#panels.forEach((panel, i) => {
      if (!panel.linked) this.#connect(i);
    });
    for (const healed = this.#now + SETTLE_MS; this.#now < healed && this.#faults.length === 0; )
      await this.#turn();
    // Messages of the server's last moment are still under way.
    for (let i = 0; i < 5; i += 1) {
      this.#now += STEP_MS;
      this.#network.arrive(this.#now);
    }
  }

  #compare(record: readonly SessionEvent[]): void {
    const truth = this.#server.state;
    // Throws on what has no JSON form.
    canonical(truth);
    for (const { who, state, outbox } of this.#panels) {
      if (!sameBytes(state, truth)) this.#faults.push(`${who.id}'s panel differs from the server`);
      if (outbox.length > 0) this.#faults.push(`${who.id}'s panel still waits for an answer`);
    }
    if (!sameBytes(replay(record), truth)) this.#faults.push("the log does not replay to the state");
    this.#faults.push(...actedTwice(record));
    if (isOver(this.#server.state)) return;
    const recorded = new Set(record.map((e) => e.command));
    for (const panel of [...this.#panels, ...this.#dead]) {
      for (const id of panel.accepted) if (!recorded.has(id)) this.#faults.push(`command ${id} was lost`);
    }
  }
}

/** Returns the commands that acted twice: the events of a command must lie together, in one step. */
function actedTwice(record: readonly SessionEvent[]): string[] {
  const steps = new Map<string, number[]>();
  for (const { command, seq } of record) {
    if (command !== null) steps.set(command, [...(steps.get(command) ?? []), seq]);
  }
  return [...steps].flatMap(([id, seqs]) =>
    seqs.every((seq, i) => seq === (seqs[0] ?? 0) + i) ? [] : [`command ${id} acted twice`],
  );
}
