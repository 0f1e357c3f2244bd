import { decideRecord, type RecordPerson } from "../../../shared/aircraft/decide.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { stageAfter } from "../../../shared/protocol/stages.ts";
import { isOver, purposeOf, type SessionState } from "../../../shared/session/state.ts";
import { leftIn } from "../invariants/standing.ts";
import { send } from "../roots.ts";
import type { Move, Taken, Who } from "./move.ts";
import { acted, ENGINES, planned, type Ramp, recorded, replaced, settled, toldAll } from "./ramp.ts";

const MOST_SESSIONS = 3;
const MOST_STOPS = 2;
const PASSERBY: RecordPerson = { id: "passerby", name: "passerby", mayHold: [] };
const OFFICE: RecordPerson = { id: "office", name: "office", mayHold: ["supervisor"] };

export function movesOf(ramp: Ramp): Move[] {
  const moves: Move[] = ramp.pending.map((session) => ({ is: "contribute", session }));
  const open = ramp.sessions.filter((s) => !isOver(s)).length;
  ramp.sessions.forEach((state, session) => {
    if (isOver(state)) return;
    for (const [who, action] of actsOf(state)) {
      moves.push({ is: "act", session, who, action, later: false });
      if (endsSomething(action)) moves.push({ is: "act", session, who, action, later: true });
    }
  });
  if (ramp.sessions.length < MOST_SESSIONS && open < 2 && ramp.pending.length === 0)
    moves.push({ is: "plan" });
  if (ramp.record.items.length < MOST_STOPS)
    moves.push({ is: "office", action: { type: "stop", is: "hold" }, by: PASSERBY });
  for (const { no } of ramp.record.items)
    for (const by of [PASSERBY, OFFICE])
      moves.push({ is: "office", action: { type: "end", no, reason: "looked at" }, by });
  return moves;
}

/** Returns the aircraft after a move; null when the move changes nothing. */
export function take(ramp: Ramp, move: Move): Taken | null {
  switch (move.is) {
    case "plan":
      return { ramp: planned(ramp), step: null };
    case "contribute":
      return { ramp: settled(ramp, move.session), step: null };
    case "office": {
      const { facts } = decideRecord(ramp.record, move.action, move.by, { now: 0, inspectsDefects: false });
      if (facts.length === 0) return null;
      const record = facts.reduce(recorded, ramp.record);
      const { action } = move;
      const still = ramp.record.items.filter((i) => action.type === "end" && i.no === action.no);
      const seen = still.flatMap(({ session, item }) =>
        item.is === "turning" ? [`${session}:${item.engine}`] : [],
      );
      return { ramp: toldAll(withStill({ ...ramp, record }, seen)), step: null };
    }
    case "act": {
      const step = acted(ramp, move.session, move.who, move.action);
      if (step.refusal) return null;
      const { action } = move;
      const engine = action.type === "send" && action.kind === "propellerStill" ? action.engine : null;
      const seen = ramp.sessions.flatMap((s, i) => (i === move.session ? [] : [`${s.id}:${engine}`]));
      const after = withStill(replaced(ramp, move.session, step.state), engine === null ? [] : seen);
      if (move.later) return { ramp: { ...after, pending: [...ramp.pending, move.session] }, step };
      return { ramp: settled(after, move.session), step };
    }
  }
}

/** The engines seen still from elsewhere, as long as their own session has them turning or not seen still. */
function withStill(ramp: Ramp, seen: readonly string[]): Ramp {
  const turning = ramp.sessions.flatMap((s) => leftIn(s).map((n) => `${s.id}:${n}`));
  return { ...ramp, seenStill: turning.filter((key) => ramp.seenStill.includes(key) || seen.includes(key)) };
}

const ENDS: readonly SignalKind[] = ["release", "resetCut", "fireOut", "propellerFree", "propellerStill"];

function endsSomething(action: Action): boolean {
  return action.type === "send" && ENDS.includes(action.kind);
}

function actsOf(state: SessionState): [Who, Action][] {
  const acts: [Who, Action][] = [];
  const stops = state.holds.length + state.cuts.length + state.fires.length;
  if (stops < MOST_STOPS) {
    acts.push(["groundPower", send("hold")], ["fireGuard", send("fire", { engine: 1, place: "nacelle" })]);
    acts.push(["supervisor", send("cut", { engine: 1 })]);
  }
  for (const { id } of state.holds) {
    acts.push(["groundPower", send("release", { ref: id })]);
    acts.push(["supervisor", send("release", { ref: id, note: "owner gone" })]);
  }
  for (const { id } of state.fires)
    for (const who of ["fireGuard", "supervisor"] as const) acts.push([who, send("fireOut", { ref: id })]);
  for (const { id } of state.cuts) {
    acts.push(["supervisor", send("resetCut", { ref: id })]);
    acts.push(["cockpit", { type: "answer", signal: id, answer: "done", channel: "panel" }]);
  }
  for (const engine of ENGINES) {
    acts.push(["fireGuard", send("propellerStill", { engine })]);
    acts.push(["groundPower", send("propellerFree", { engine })]);
    acts.push(["cockpit", send("handlePropeller", { engine })]);
    acts.push(["cockpit", send("shutDown", { engine })]);
  }
  acts.push(["cockpit", send("cranking", { engine: 1 })], ["cockpit", send("startAbandoned", { engine: 1 })]);
  if (state.returning) acts.push(["cockpit", send("switchesOff")]);
  acts.push(["supervisor", { type: "abandon", reason: "weather" }]);
  return [...acts, ...towardsClearance(state)];
}

/** The moves by which a new session reaches a clearance of its first engine. */
function towardsClearance(state: SessionState): [Who, Action][] {
  const next = stageAfter(state.stage, purposeOf(state));
  const received = state.signals.filter((s) => s.kind === "chocksIn");
  return [
    ...(next ? ([["supervisor", { type: "advance", to: next }]] as [Who, Action][]) : []),
    ...(state.stage === "secure" && !state.chocks
      ? ([["groundPower", send("chocksIn")]] as [Who, Action][])
      : []),
    ...(state.stage === "secure" && !state.brakes
      ? ([["cockpit", send("brakesSet", { pressure: { value: 100, unit: "psi" } })]] as [Who, Action][])
      : []),
    ...received.map((s): [Who, Action] => [
      "cockpit",
      { type: "answer", signal: s.id, answer: "received", channel: "panel" },
    ]),
    ...(state.stage === "starting"
      ? ([
          ["cockpit", send("readyToStart", { engine: 1, note: "as agreed" })],
          ["fireGuard", send("guardInPlace", { engine: 1 })],
          ["fireGuard", send("arcClear", { engine: 1 })],
          ["supervisor", send("clearToStart", { engine: 1 })],
        ] as [Who, Action][])
      : []),
  ];
}
