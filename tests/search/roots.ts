import type { Action, Send } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { act, type CommandMark, type Person, plan } from "../../shared/session/step.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FIRST_ID, PEOPLE, START, TYPE } from "./model.ts";

export const MARK: CommandMark = { id: "command", digest: "digest", clientAt: 0 };

export function send(kind: Send["kind"], more: Partial<Omit<Send, "type" | "kind">> = {}): Send {
  return { type: "send", kind, channel: "panel", ...more };
}

/** Points of a start from which a search can begin. People's actions lead from each one to the next. */
export const STARTS = ["prepared", "cleared", "cranking", "firstStable", "warmUp"] as const;
const RETURNS = ["arrived", "stopping", "lastStopped"] as const;
export const ROOTS = [...STARTS, ...RETURNS] as const;
export type Root = (typeof ROOTS)[number];

/**
 * Returns the session at a root, all of it at one moment.
 * @throws Error when an action on the way there is refused
 */
export function stateAt(root: Root, type: AircraftType = TYPE): SessionState {
  const returns = RETURNS.some((r) => r === root);
  const crew = new Rehearsal(type, returns);
  const legs: Record<Root, () => void> = {
    prepared: () => crew.prepare(),
    cleared: () => crew.clear(1),
    cranking: () => crew.say("cockpit", send("cranking", { engine: 1 })),
    firstStable: () => crew.run(1),
    warmUp: () => {
      crew.clear(2);
      crew.say("cockpit", send("cranking", { engine: 2 }));
      crew.run(2);
      crew.say("supervisor", { type: "advance", to: "warmUp" });
    },
    arrived: () => crew.arrive(),
    stopping: () => crew.stand(),
    lastStopped: () => crew.stop(),
  };
  for (const leg of returns ? RETURNS : STARTS) {
    legs[leg]();
    if (leg === root) break;
  }
  return crew.state;
}

class Rehearsal {
  state: SessionState;

  constructor(type: AircraftType, returns: boolean) {
    const fact = {
      type: "planned" as const,
      aircraft: "N0",
      place: "stand 1",
      ...(returns ? { purpose: "return" as const } : {}),
      aircraftType: type,
      order: [1, 2],
      powerSource: "groundPower" as const,
      lastRan: [],
      defects: [],
      crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
    };
    this.state = { ...plan("s", fact, PEOPLE.supervisor, MARK, START).state, seq: FIRST_ID };
  }

  say(who: keyof typeof PEOPLE, action: Action): void {
    const by: Person = PEOPLE[who];
    const step = act(this.state, action, by, MARK, START);
    if (step.refusal) throw new Error(`${who} ${JSON.stringify(action)}: ${JSON.stringify(step.refusal)}`);
    this.state = step.state;
  }

  /** Answers the last open signal of a kind. */
  answer(who: keyof typeof PEOPLE, kind: Send["kind"], answer: "received" | "readBack", engine?: number) {
    const signal = this.state.signals.findLast((s) => s.kind === kind)?.id ?? 0;
    const more = engine === undefined ? {} : { engine };
    this.say(who, { type: "answer", signal, answer, channel: "panel", ...more });
  }

  /** Mans a return up to the arrival. */
  arrive() {
    for (const post of POSTS) this.say(post, { type: "claimPost", post });
    this.say("supervisor", { type: "advance", to: "brief" });
    for (const post of POSTS) this.say(post, { type: "confirmBrief" });
    this.say("supervisor", { type: "advance", to: "arrival" });
  }

  /** The aircraft stands on its place, braked and chocked, and its engines have cooled. */
  stand() {
    this.say("supervisor", send("onStand"));
    this.answer("cockpit", "onStand", "received");
    this.say("cockpit", send("brakesSet", { pressure: { value: 100, unit: "psi" } }));
    this.say("groundPower", send("chocksIn"));
    this.answer("cockpit", "chocksIn", "received");
    this.say("supervisor", { type: "advance", to: "stopping" });
  }

  /** Engine 1 was seen still, engine 2 is reported stopped. */
  stop() {
    this.say("cockpit", send("shutDown", { engine: 1 }));
    this.say("fireGuard", send("propellerStill", { engine: 1 }));
    this.say("cockpit", send("shutDown", { engine: 2 }));
  }

  /** Prepares a session: posts held and briefed, aircraft secured and powered, stage `starting`. */
  prepare() {
    for (const post of POSTS) this.say(post, { type: "claimPost", post });
    this.say("supervisor", { type: "advance", to: "brief" });
    for (const post of POSTS) this.say(post, { type: "confirmBrief" });
    this.say("supervisor", { type: "advance", to: "secure" });
    this.say("groundPower", send("chocksIn"));
    this.answer("cockpit", "chocksIn", "received");
    this.say("cockpit", send("brakesSet", { pressure: { value: 100, unit: "psi" } }));
    this.say("supervisor", { type: "advance", to: "powerUp" });
    this.say("supervisor", { type: "advance", to: "groundPower" });
    this.say("cockpit", send("connectPower"));
    this.say("groundPower", send("powerConnected", { volts: { value: 28, unit: "V" } }));
    this.answer("cockpit", "powerConnected", "received");
    this.say("supervisor", { type: "advance", to: "starting" });
  }

  clear(engine: number) {
    for (const { id, moment } of (this.state.type.card ?? []).filter((i) => i.clearance)) {
      const at = moment === "beforeEngine" ? { engine } : {};
      this.say("cockpit", { type: "answerCard", item: id, good: true, ...at });
    }
    this.say("fireGuard", send("guardInPlace", { engine }));
    this.say("fireGuard", send("arcClear", { engine }));
    this.say("cockpit", send("readyToStart", { engine }));
    this.say("supervisor", send("clearToStart", { engine }));
    this.answer("cockpit", "clearToStart", "readBack", engine);
  }

  run(engine: number) {
    this.say("cockpit", send("caught", { engine }));
    const reading = { value: 60, unit: "psi" as const };
    this.say("cockpit", { type: "reading", gauge: "oilPressure", engine, reading });
    this.say("cockpit", send("started", { engine }));
  }
}
