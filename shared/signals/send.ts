import { decideStart } from "../engine/start.ts";
import { decideGuard } from "../guard/decide.ts";
import { decideService } from "../leaves/decide.ts";
import type { Send } from "../protocol/commands.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { decideStop } from "../stops/decide.ts";
import { CATALOGUE } from "./catalogue.ts";
import { witnessFault } from "./witness.ts";

type Decider = (state: SessionState, send: Send, context: Context) => Verdict;

const DECIDERS: Readonly<Record<Send["kind"], Decider>> = {
  readyToStart: decideStart,
  clearToStart: decideStart,
  revokeClearance: decideStart,
  cranking: decideStart,
  caught: decideStart,
  started: decideStart,
  startAbandoned: decideStart,
  shutDown: decideStart,
  turning: decideStop,
  hold: decideStop,
  release: decideStop,
  cut: decideStop,
  cutAll: decideStop,
  resetCut: decideStop,
  fire: decideStop,
  fireOut: decideStop,
  guardInPlace: decideGuard,
  guardAway: decideGuard,
  arcClear: decideGuard,
  arcNotClear: decideGuard,
  connectPower: decideService,
  powerConnected: decideService,
  disconnectPower: decideService,
  powerDisconnected: decideService,
  insertChocks: decideService,
  chocksIn: decideService,
  removeChocks: decideService,
  chocksOut: decideService,
  handlePropeller: decideService,
  propellerFree: decideService,
  brakesSet: decideService,
  brakesReleased: decideService,
  allClear: (state, send) => (stopOpen(state) ? refuse("stopOpen") : accept({ ...send, type: "sent" })),
  negative: (_state, send) => accept({ ...send, type: "sent" }),
};

/** Checks that hold for every kind, then hands over to the kind's own decider. */
export function decideSend(state: SessionState, send: Send, context: Context): Verdict {
  const rule = CATALOGUE[send.kind];
  if (rule.stop) return decideStop(state, send, context);
  if (rule.engine === "required" && send.engine === undefined) return refuse("engineNeeded");
  if (send.engine !== undefined && !engineOf(state, send.engine)) {
    return refuse("noSuchEngine", { engine: send.engine, found: `1 to ${state.engines.length}` });
  }
  return witnessFault(state, send, context) ?? DECIDERS[send.kind](state, send, context);
}
