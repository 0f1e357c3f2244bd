import { playPost } from "../../shared/partners/play.ts";
import { type Action, actionSchema } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Chance } from "../sim/chance.ts";
import { intent } from "../sim/intents.ts";
import { CREW, onDevice, type Person, type Say } from "../spec/given.ts";
import { type Dice, PEOPLE, tried } from "../spec/walk.ts";

/** The next action of one person. */
export interface Try {
  who: Person;
  action: Action;
}

const SCRIPT = { seed: 1, pace: 1, cart: "Cart" };
const DIE = 1 << 20;

/** The start as the crew does it: vacant posts are taken, and each post answers what is asked of it. */
export function lawful(state: SessionState, now: number, chance: Chance): Try | null {
  const held = new Set(POSTS.flatMap((post) => state.posts[post]?.id ?? []));
  const vacant = POSTS.find((post) => state.posts[post] === null);
  if (vacant) {
    const who = held.has(CREW[vacant].id)
      ? PEOPLE.find((p) => !held.has(p.id) && p.mayHold.includes(vacant))
      : CREW[vacant];
    if (who) return { who, action: { type: "claimPost", post: vacant } };
  }
  const ready = POSTS.flatMap((post): Try[] => {
    const holder = state.posts[post];
    const who = PEOPLE.find((p) => p.id === holder?.id);
    const move = who && playPost(state, post, now, SCRIPT);
    if (!holder || !who || !move || move.notBefore > now) return [];
    return [{ who: onDevice(who, holder.device), action: move.action }];
  });
  return ready[chance.below(Math.max(1, ready.length))] ?? null;
}

/** Anything by anybody: asked or not, allowed or not, with the right figures or not. */
export function anything(state: SessionState, now: number, chance: Chance): Try {
  const dice: Dice = [chance.below(DIE), chance.below(DIE), chance.below(DIE), chance.below(DIE)];
  const { who, action } = tried(state, dice, now);
  return { who, action: actionSchema.parse(action) };
}

/** Moves beside the start: posts change hands, conditions are set aside, drills are worked. */
export function beside(state: SessionState, chance: Chance): Try | null {
  const who = PEOPLE[chance.below(PEOPLE.length)];
  const say = who && intent(state, who, PEOPLE, chance);
  return who && say ? { who, action: actionSchema.parse(say) } : null;
}

/** Moves that could hurt somebody if the server took them at the wrong moment. */
export function harmful(state: SessionState, chance: Chance): Try {
  const engine = 1 + chance.below(state.engines.length);
  const old = state.ended.findLast((s) => s.kind === "clearToStart")?.id;
  const open = state.signals[chance.below(Math.max(1, state.signals.length))]?.id ?? 1;
  const stop = [...state.holds, ...state.cuts, ...state.fires].at(chance.below(3))?.id ?? 1;
  const clear = state.signals.find((s) => s.kind === "clearToStart")?.id ?? old ?? 1;
  const tries: readonly [who: string, say: Say][] = [
    ["di", { type: "send", kind: "clearToStart", engine }],
    ["fay", { type: "send", kind: "clearToStart", engine }],
    ["ada", { type: "send", kind: "cranking", engine }],
    ["ada", { type: "send", kind: "cranking", engine, ref: old ?? 1 }],
    ["bo", { type: "send", kind: "cranking", engine }],
    ["bo", { type: "send", kind: "guardInPlace", engine }],
    ["bo", { type: "send", kind: "arcClear", engine }],
    ["ed", { type: "send", kind: "arcClear", engine }],
    ["cy", { type: "send", kind: "arcNotClear", engine }],
    ["ada", { type: "answer", signal: clear, answer: "readBack", engine }],
    ["bo", { type: "answer", signal: clear, answer: "readBack", engine }],
    ["cy", { type: "answer", signal: open, answer: "authorise" }],
    ["ada", { type: "answer", signal: open, answer: "done" }],
    ["cy", { type: "send", kind: "handlePropeller", engine }],
    ["ada", { type: "send", kind: "handlePropeller", engine }],
    ["cy", { type: "countBlades", engine, blades: 9, resistance: false }],
    ["bo", { type: "send", kind: "propellerFree", engine }],
    ["bo", { type: "send", kind: "propellerStill", engine }],
    ["ada", { type: "send", kind: "propellerStill", engine }],
    ["cy", { type: "send", kind: "propellerStill", engine }],
    ["ada", { type: "send", kind: "switchesOff" }],
    ["ada", { type: "send", kind: "coolDown" }],
    ["di", { type: "send", kind: "onStand" }],
    ["cy", { type: "send", kind: "powerDisconnected" }],
    ["cy", { type: "send", kind: "chocksOut" }],
    ["cy", { type: "send", kind: "release", ref: stop }],
    ["ed", { type: "send", kind: "release", ref: stop, note: "it looks well" }],
    ["di", { type: "send", kind: "resetCut", ref: stop }],
    ["fay", { type: "send", kind: "fireOut", ref: stop }],
    ["bo", { type: "send", kind: "fireAt", ref: stop, engine }],
    ["ed", { type: "send", kind: "fireAt", engine, place: "exhaust" }],
    ["ed", { type: "send", kind: "disregard", ref: stop }],
    ["di", { type: "send", kind: "disregard", ref: stop }],
    ["ada", { type: "send", kind: "brakesReleased" }],
    ["ada", { type: "send", kind: "shutDown", engine }],
    ["fay", { type: "claimPost", post: "fireGuard" }],
    ["di", { type: "vacatePost", post: "fireGuard", reason: "out of sight" }],
    ["ed", { type: "send", kind: "hold", note: "somebody walks there" }],
  ];
  const [id, say] = tries[chance.below(tries.length)] ?? ["ed", { type: "present" }];
  return { who: whoIs(state, id), action: actionSchema.parse(say) };
}

/** The person, on the device on which they hold a post, if any. */
export function whoIs(state: SessionState, id: string): Person {
  const who = PEOPLE.find((p) => p.id === id);
  if (!who) throw new Error(`nobody is called ${id}`);
  const holder = Object.values(state.posts).find((h) => h?.id === id);
  return holder ? onDevice(who, holder.device) : who;
}
