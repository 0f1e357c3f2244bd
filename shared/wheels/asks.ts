import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { waitedFor } from "../conditions/renewal.ts";
import { brakesSet } from "../conditions/wheels.ts";
import { isTurning } from "../engine/life.ts";
import { clearChoice } from "../leaves/asks.ts";
import { unmetForService } from "../leaves/conditions.ts";
import { authorityFault } from "../leaves/fault.ts";
import { openRequest } from "../leaves/openRequest.ts";
import { type SessionState, stopOpen } from "../session/state.ts";

export function brakes(state: SessionState, now: number): Ask[] {
  if (!brakesMatter(state)) return [];
  const finding = brakesSet.find(state, 0, now);
  const waits = waitedFor(state, brakesSet, now);
  if (finding.is === "yes" && waits === null) return [];
  const unit = state.type.brakePressure.atLeast.unit;
  return [
    ask({
      key: "brakes",
      say: "brakesSet",
      weight: waits === null ? 3 : 2,
      since: waits ?? finding.at,
      choices: [choice("brakesSet", "yes", send("brakesSet"), { is: "figure", field: "pressure", unit })],
    }),
  ];
}

/**
 * Returns true until the last engine is started, and again before the chocks are removed, because pressure bleeds off.
 */
function brakesMatter(state: SessionState): boolean {
  if (state.chocks?.in === true) {
    const leaving = state.stage === "release" || state.signals.some((s) => s.kind === "removeChocks");
    if (leaving) return true;
  }
  if (state.returning) return awaitsChocks(state);
  return state.stage === "secure" || state.stage === "groundPower" || state.stage === "starting";
}

/** Returns true in a return while the brakes alone hold the aircraft on its place. */
function awaitsChocks({ stage, returning, chocks, engines }: SessionState): boolean {
  const here = stage === "arrival" || stage === "stopping";
  const turns = engines.some((e) => isTurning(e.life));
  return here && turns && returning?.onStand !== null && chocks?.in !== true;
}

/** Returns the cockpit's ask to have the chocks inserted, once the aircraft stands braked on its place. */
export function insertChocks(state: SessionState, now: number): Ask[] {
  const here = state.stage === "arrival" || state.stage === "stopping" || state.stage === "stowing";
  if (!here || !state.returning?.onStand || state.chocks?.in === true) return [];
  if (openRequest(state, "insertChocks") || authorityFault(state, "insertChocks", now, null)) return [];
  if (awaitsChocks(state) && brakesSet.find(state, 0, now).is !== "yes") return [];
  return [
    ask({
      key: "insertChocks",
      say: "insertChocks",
      weight: 3,
      choices: [choice("insertChocks", "yes", send("insertChocks"))],
    }),
  ];
}

/** Returns the cockpit's ask to have the chocks removed, in release. */
export function removeChocks(state: SessionState, now: number): Ask[] {
  if (state.stage !== "release") return [];
  if (state.chocks?.in !== true || openRequest(state, "removeChocks")) return [];
  if (authorityFault(state, "removeChocks", now, null)) return [];
  return [
    ask({
      key: "chocks",
      say: "removeChocks",
      weight: 3,
      choices: [choice("removeChocks", "yes", send("removeChocks"))],
    }),
  ];
}

/**
 * Returns the ask to shut an inboard engine down, when nothing else keeps the chocks in. The brakes are read before,
 * because such an engine may drive what holds them.
 */
export function stopInboard(state: SessionState, now: number): Ask[] {
  if (state.stage !== "release" || state.chocks?.in !== true || stopOpen(state)) return [];
  const [only, ...others] = unmetForService(state, "removeChocks", now);
  if (only?.id !== "inboardStopped" || others.length > 0) return [];
  const engine = Number(only.found);
  return [
    ask({
      key: `inboard:${engine}`,
      say: "inboardTurns",
      weight: 3,
      engine,
      choices: [choice("shutDown", "yes", send("shutDown", engine))],
    }),
  ];
}

/**
 * Returns the ask to insert the chocks, while the aircraft is secured and whenever the crew's leave to insert them is
 * valid.
 */
export function chocksIn(state: SessionState): Ask[] {
  const leave = state.authorities.insertChocks?.epoch === state.epoch;
  if (leave) return [chocks("chocksIn", clearChoice("no"))];
  return state.stage === "secure" && state.chocks?.in !== true ? [chocks("chocksIn")] : [];
}

/** Returns the ask to remove the chocks, only on the crew's leave. */
export function chocksOut(state: SessionState): Ask[] {
  const leave = state.authorities.removeChocks?.epoch === state.epoch;
  return state.chocks?.in === true && leave ? [chocks("chocksOut", clearChoice("no"))] : [];
}

function chocks(kind: "chocksIn" | "chocksOut", ...more: Choice[]): Ask {
  return ask({ key: kind, say: kind, weight: 3, choices: [choice(kind, "yes", send(kind)), ...more] });
}
