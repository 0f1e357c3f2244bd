import type { RecordPerson } from "../../shared/aircraft/decide.ts";
import { withTiming } from "../safety/types.ts";
import { FOUR } from "../spec/aircraft.ts";
import { CREW, type Story } from "../spec/given.ts";
import { Ramp } from "../spec/ramp.ts";
import { STOPPED } from "../spec/stoppable.ts";
import type { AnyEvent } from "./sealed.ts";

/** The records of one aircraft: those of its sessions in the order of planning, and its own. */
export interface Records {
  sessions: AnyEvent[][];
  record: AnyEvent[];
}

const passerby: RecordPerson = { id: "eli", name: "Eli", mayHold: [] };
/** The brakes may be set aside, so that two people can be seen doing it; a slip may be taken back. */
const TYPE = { ...withTiming(FOUR, { slip: 5 }), overridable: ["brakesSet" as const] };

const recordsOf = (ramp: Ramp): Records => ({ sessions: ramp.sessions.map((s) => s.log), record: ramp.log });

/**
 * Three sessions of one aircraft, one after the other, that contain what the judge judges: every kind of stop with its
 * end, clearances used, ended and given up, hands on a propeller, power and chocks on the crew's leave, a condition set
 * aside, a restart; and stops, hands and a turning engine left for the next session.
 */
export function threeSessions(): Records {
  const ramp = new Ramp();
  firstSession(ramp, ramp.plan({ type: TYPE }));
  ramp.act(passerby, { type: "stop", is: "hold", note: "a child on the ramp" });
  secondSession(ramp, ramp.plan({ type: TYPE }).manned());
  thirdSession(ramp, ramp.plan({ type: TYPE }).manned());
  return recordsOf(ramp);
}

function firstSession(ramp: Ramp, story: Story): void {
  story.upTo("secure");
  story.send("cockpit", "handlePropeller", { engine: 1 });
  story.say("groundPower", { type: "countBlades", engine: 1, blades: 9, resistance: false });
  story.send("groundPower", "propellerFree", { engine: 1 });
  ramp.settle(story);
  story.upTo("starting").failedStart(4, 10);
  ramp.settle(story);
  story.wait(61).cleared(3);
  story.send("fireGuard", "hold", { note: "somebody walks there" });
  ramp.settle(story);
  story.say("supervisor", { type: "present" });
  story.send("fireGuard", "release", { ref: story.state.holds[0]?.id ?? 0 });
  ramp.settle(story);
  story.send("cockpit", "brakesReleased");
  story.say("cockpit", { type: "override", condition: "brakesSet", engine: 4, reason: "chocks hold it" });
  story.say("supervisor", { type: "override", condition: "brakesSet", engine: 4, reason: "chocks hold it" });
  story.running(4).wait(20);
  story.send("cockpit", "started", { engine: 4 });
  ramp.settle(story);
  story.restart();
  story.send("fireGuard", "fire", { engine: 4, place: "exhaust" });
  ramp.settle(story);
  const fire = story.state.fires[0]?.id ?? 0;
  story.send("groundPower", "fireAt", { ref: fire, place: "nacelle" });
  ramp.settle(story);
  story.send("fireGuard", "fireOut", { ref: fire });
  story.send("supervisor", "fireOut", { ref: fire });
  ramp.settle(story);
  story.send("groundPower", "cutAll");
  ramp.settle(story);
  story.send("groundPower", "disregard", { ref: story.state.cuts[0]?.id ?? 0 });
  ramp.settle(story);
  story.send("cockpit", "cut", { engine: 4 });
  story.answer("cockpit", story.openSignal("cut"), "done");
  story.send("supervisor", "resetCut", { ref: story.state.cuts[0]?.id ?? 0 });
  story.send("cockpit", "handlePropeller", { engine: 2 });
  ramp.settle(story);
  story.send("groundPower", "hold", { note: "fuel on the ground" });
  for (const post of ["supervisor", "cockpit"] as const)
    story.say(post, { type: "abandon", reason: "fuel on the ground" });
  ramp.settle(story);
}

function secondSession(ramp: Ramp, story: Story): void {
  for (const { id, person } of [...story.state.holds]) {
    if (person === CREW.groundPower.id) story.send("groundPower", "release", { ref: id });
    else story.send("supervisor", "release", { ref: id, note: "the child is with its parents" });
  }
  ramp.settle(story);
  story.upTo("secure");
  story.send("groundPower", "propellerFree", { engine: 2 });
  // The first session cut it, and nobody has looked at its propeller since.
  story.send("fireGuard", "propellerStill", { engine: 4 });
  story.say("cockpit", { type: "amendPlan", order: [3], reason: "one engine is enough" });
  story.upTo("warmUp");
  ramp.settle(story);
  story.upTo("closed");
  ramp.settle(story);
}

function thirdSession(ramp: Ramp, story: Story): void {
  story.upTo("secure");
  story.send("fireGuard", "propellerStill", { engine: 3 });
  ramp.settle(story);
  story.wait(60).upTo("starting").cranking(3);
  ramp.settle(story);
  story.send("supervisor", "cutAll");
  story.say("supervisor", { type: "present" });
  ramp.settle(story);
}

/** Two open sessions of one aircraft: a hold in the one voids a clearance in the other. */
export function twoAtOnce(): Records {
  const ramp = new Ramp();
  const live = ramp.plan({ type: TYPE }).upTo("starting");
  ramp.settle(live);
  const planned = ramp.plan({ type: TYPE }).upTo("brief");
  planned.say("supervisor", { type: "present" });
  ramp.settle(planned);
  const clearance = live.readBack(3);
  ramp.settle(live);
  planned.wait(1).send("groundPower", "hold");
  ramp.settle(planned);
  live.wait(1).send("cockpit", "cranking", { engine: 3, ref: clearance });
  live.say("cockpit", { type: "present" });
  ramp.settle(live);
  return recordsOf(ramp);
}

/**
 * A start that went away with four engines turning, and its return: one engine came in stopped, one was stopped warm,
 * power was on meanwhile, hands were on a propeller, and one that had stopped was seen turning again.
 */
export function awayAndBack(): Records {
  const ramp = new Ramp();
  ramp.settle(ramp.plan({ type: STOPPED }).manned().upTo("closed"));
  const home = ramp.plan({ type: STOPPED, purpose: "return", order: [2, 3, 1] }).manned();
  ramp.settle(home.upTo("arrival"));
  home.say("supervisor", { type: "present" });
  ramp.settle(home.upTo("stopping"));
  home.say("supervisor", { type: "present" });
  home.power();
  home.send("cockpit", "coolDown");
  home.wait(120);
  for (const [engine, degrees] of [
    [2, 200],
    [3, 190],
    [1, 230],
  ] as const)
    home.reading("cylinderTemp", engine, degrees, "degC");
  home.stopped(2);
  home.say("supervisor", { type: "present" });
  for (const engine of [3, 1]) home.stopped(engine);
  home.send("groundPower", "propellerStill", { engine: 4 });
  home.say("supervisor", { type: "present" });
  home.send("cockpit", "switchesOff");
  home.say("supervisor", { type: "advance", to: "stowing" });
  ramp.settle(home);
  home.send("cockpit", "handlePropeller", { engine: 3 });
  ramp.settle(home);
  home.send("groundPower", "propellerFree", { engine: 3 });
  home.send("groundPower", "turning", { engine: 4 });
  ramp.settle(home);
  home.send("cockpit", "shutDown", { engine: 4 });
  home.send("groundPower", "release", { ref: home.state.holds[0]?.id ?? 0 });
  home.send("fireGuard", "propellerStill", { engine: 4 });
  home.send("cockpit", "switchesOff");
  home.say("cockpit", { type: "writeDefect", engine: 1, words: "rough: stopped warm", barsStart: false });
  home.powerOff();
  home.heard();
  home.say("supervisor", { type: "advance", to: "closed" });
  ramp.settle(home);
  if (home.state.stage !== "closed")
    throw new Error(`the return is not closed: ${home.last.refusal?.missing}`);
  return recordsOf(ramp);
}

const stowing = (id: string, post: "fireGuard" | "groundPower") =>
  ({ id, words: id, stage: "stowing", post, source: { basis: "invented", text: "for tests" } }) as const;
/** Chocks wait for the engines beside the wheels, and what was taken out is stowed. */
const KEPT_AWAY = {
  ...STOPPED,
  conditions: [...STOPPED.conditions, "inboardStopped" as const],
  checks: [...STOPPED.checks, stowing("bottleStowed", "fireGuard"), stowing("cartStowed", "groundPower")],
};

/**
 * A start of the outboard engines with blades counted before, and a return from elsewhere: its chocks go in on a leave
 * once the inboard engines are stopped, and everything is stowed.
 */
export function besideTheWheels(): Records {
  const ramp = new Ramp();
  const out = ramp
    .plan({ type: KEPT_AWAY, order: [1, 4] })
    .manned()
    .upTo("secure");
  out.send("cockpit", "handlePropeller", { engine: 1 });
  out.say("supervisor", { type: "present" });
  out.say("groundPower", { type: "countBlades", engine: 1, blades: 9, resistance: false });
  out.send("groundPower", "propellerFree", { engine: 1 });
  ramp.settle(out.upTo("release"));
  out.say("supervisor", { type: "present" });
  ramp.settle(out.upTo("closed"));
  const home = ramp.plan({ type: KEPT_AWAY, purpose: "return", order: [2, 3, 1, 4] }).manned();
  ramp.settle(home.upTo("arrival"));
  home.send("supervisor", "onStand");
  home.brakes();
  home.heard();
  home.say("supervisor", { type: "advance", to: "stopping" });
  home.say("supervisor", { type: "present" });
  home.cooled();
  for (const engine of [2, 3]) home.stopped(engine);
  home.send("cockpit", "insertChocks");
  home.send("groundPower", "chocksIn", { ref: home.openSignal("insertChocks") });
  ramp.settle(home.upTo("stowing"));
  home.say("fireGuard", { type: "recordCheck", check: "bottleStowed", good: true });
  home.say("groundPower", { type: "recordCheck", check: "cartStowed", good: true });
  ramp.settle(home.upTo("closed"));
  return recordsOf(ramp);
}
