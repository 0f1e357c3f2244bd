import { canonical } from "../../shared/evidence/canonical.ts";
import { isOver, stopOpen } from "../../shared/session/state.ts";
import { given, replay, type Story } from "../spec/given.ts";
import { type Dice, PEOPLE, tried } from "../spec/walk.ts";
import { Chance } from "./chance.ts";
import { Network, type Weather } from "./network.ts";
import { SimPanel } from "./panel.ts";
import { SimServer } from "./server.ts";

/** What came of one run: `fault` null when every promise held. */
export interface Outcome {
  seed: number;
  fault: string | null;
  events: number;
  accepted: number;
  resent: number;
}

const STEP_MS = 100;
const BEAT_MS = 2_000;
const SETTLE_MS = 12_000;
const stages = ["plan", "secure", "starting", "starting", "starting", "warmUp"] as const;
const begun = new Map<string, Story>();

function story(stage: (typeof stages)[number]): Story {
  const known =
    begun.get(stage) ??
    given({ order: [3, 4] })
      .manned()
      .upTo(stage);
  begun.set(stage, known);
  return known;
}

/**
 * One session over bad sockets: panels with wrong clocks send whatever their people try, links break and come back,
 * the server restarts. Then the network heals, and every panel must hold the server's bytes; no command may have
 * acted twice, none that was answered "accepted" may be missing, and nothing may have been sent stale.
 */
export function simulate(seed: number, minutes = 0.5): Outcome {
  const chance = new Chance(seed);
  const first = story(stages[chance.below(stages.length)] ?? "plan");
  const weather: Weather = {
    loss: chance.next() * 0.3,
    duplication: chance.next() * 0.3,
    maxDelay: 1 + chance.below(1_500),
  };
  const network = new Network(chance, weather);
  let now = first.now;
  const panels = PEOPLE.map((who) => new SimPanel(who, chance.below(7_200_000) - 3_600_000));
  const server = new SimServer(first.log, first.state, (events) => {
    panels.forEach((panel, i) => {
      if (panel.linked) network.send(now, i, () => panel.events(events, now));
    });
  });
  const faults: string[] = [];
  let resent = 0;
  let commands = 0;
  const seen = new Set<string>();

  const connect = (panel: SimPanel, i: number) =>
    panel.link(
      {
        command: (command) => {
          if (seen.has(command.id)) resent += 1;
          seen.add(command.id);
          if (command.validUntil !== undefined && now >= command.validUntil)
            faults.push(`${command.id} was sent stale`);
          network.send(now, i, () => {
            const result = server.command(command, panel.who, now);
            network.send(now, i, () => panel.answered(command.id, result));
          });
        },
        watch: (since) =>
          network.send(now, i, () => {
            const sync = server.watch(since, now);
            network.send(now, i, () => panel.synced(sync, since, now));
          }),
      },
      now,
    );
  const beat = () =>
    panels.forEach((panel, i) => {
      const head = server.state.seq;
      if (panel.linked) network.send(now, i, () => panel.beat(head, now));
    });
  const turn = () => {
    now += STEP_MS;
    server.wake(now);
    network.arrive(now);
    if (now % BEAT_MS < STEP_MS) beat();
    for (const panel of panels) panel.run(now);
    for (const panel of panels) {
      const head = server.state.seq;
      if ((panel.state?.seq ?? 0) > head) faults.push(`${panel.who.id} is ahead of the server`);
    }
    if (stopOpen(server.state) && server.state.engines.some((e) => e.life.is === "clear")) {
      faults.push("a clearance stands under a stop");
    }
  };

  panels.forEach(connect);
  const end = now + minutes * 60_000;
  while (now < end && faults.length === 0) {
    panels.forEach((panel, i) => {
      if (panel.linked ? chance.is(0.004) : chance.is(0.04)) {
        network.cut(i);
        if (panel.linked) panel.unlink();
        else connect(panel, i);
      }
      if (!panel.state || !chance.is(0.05)) return;
      const dice: Dice = [i, chance.below(100_000), chance.below(100_000), chance.below(100_000)];
      const move = tried(panel.state, dice, now);
      if (move.who !== panel.who) return;
      commands += 1;
      panel.say(`00000001-0000-4000-8000-${String(commands).padStart(12, "0")}`, move.action, now);
    });
    if (chance.is(0.002)) server.restart(now);
    turn();
  }

  network.weather = { loss: 0, duplication: 0, maxDelay: 20 };
  panels.forEach((panel, i) => {
    if (!panel.linked) connect(panel, i);
  });
  for (const healed = now + SETTLE_MS; now < healed && faults.length === 0; ) turn();

  // What the server said in its last moment is still under way.
  for (let i = 0; i < 5; i += 1) {
    now += STEP_MS;
    network.arrive(now);
  }
  const truth = canonical(server.state);
  for (const panel of panels) {
    if (canonical(panel.state) !== truth) faults.push(`${panel.who.id}'s panel differs from the server`);
    if (panel.outbox.length > 0) faults.push(`${panel.who.id}'s panel still waits for an answer`);
  }
  if (canonical(replay(server.log)) !== truth) faults.push("the log does not replay to the state");
  faults.push(...actedTwice(server), ...lost(server, panels));
  const accepted = panels.reduce((n, p) => n + p.accepted.size, 0);
  return { seed, fault: faults[0] ?? null, events: server.log.length, accepted, resent };
}

/** A command acts once: its own events lie together, in one step. */
function actedTwice(server: SimServer): string[] {
  const steps = new Map<string, number[]>();
  for (const { command, seq } of server.log) {
    if (command !== null) steps.set(command, [...(steps.get(command) ?? []), seq]);
  }
  return [...steps].flatMap(([id, seqs]) =>
    seqs.every((seq, i) => seq === (seqs[0] ?? 0) + i) ? [] : [`command ${id} acted twice`],
  );
}

function lost(server: SimServer, panels: readonly SimPanel[]): string[] {
  if (isOver(server.state)) return [];
  const recorded = new Set(server.log.map((e) => e.command));
  return panels.flatMap((p) =>
    [...p.accepted].filter((id) => !recorded.has(id)).map((id) => `command ${id} was lost`),
  );
}

/** Seeds from `first` on, for as many as asked or until one fails. */
export function simulateMany(
  first: number,
  count: number,
): { runs: number; failed: Outcome | null; events: number; resent: number } {
  let events = 0;
  let resent = 0;
  for (let i = 0; i < count; i += 1) {
    const outcome = simulate(first + i);
    events += outcome.events;
    resent += outcome.resent;
    if (outcome.fault) return { runs: i + 1, failed: outcome, events, resent };
  }
  return { runs: count, failed: null, events, resent };
}
