import type { Send } from "../../../shared/protocol/commands.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { TYPE } from "../model.ts";
import { type Invariant, lifeOf, own, type Transition } from "./invariant.ts";

const OVER = new Set(["closed", "abandoned"]);
const TURNING = new Set(["cranking", "caught", "running", "stable"]);
const LOWERING = new Set([
  "revokeClearance",
  "arcNotClear",
  "guardAway",
  "peopleAtAircraft",
  "powerDisconnected",
  "chocksOut",
  "brakesReleased",
  "negative",
]);
const LEAST_OIL = TYPE.oil.normal.atLeast.value;

/** The signal this step's person sent, taken or not; null for anything else, and in a session that is over. */
function sent({ before, move }: Transition): Send | null {
  if (OVER.has(before.stage) || move.is !== "act" || move.action.type !== "send") return null;
  return move.action;
}

const turns = (state: SessionState, n: number) => {
  const engine = state.engines[n - 1];
  return engine !== undefined && TURNING.has(lifeOf(engine).is);
};

const raised = (state: SessionState, kind: string, n: number | null) =>
  state.alerts.some((a) => a.kind === kind && a.active && a.engine === n);

export const REPORTS: readonly Invariant[] = [
  {
    id: "S20",
    text: "a report that lowers confidence is recorded from anybody, at any time, late or without leave",
    holds: (t) => {
      const said = sent(t);
      return said === null || !LOWERING.has(said.kind) || own(t.step)?.fact.type === "sent";
    },
  },
  {
    id: "S21",
    text: "an engine reported cranking turns after it, with a hold where no clearance was used",
    holds: (t) => {
      const said = sent(t);
      if (said?.kind !== "cranking") return true;
      const n = said.engine ?? 0;
      if (turns(t.before, n)) return true;
      const fact = own(t.step)?.fact;
      if (fact?.type !== "sent") return false;
      const held = t.step.state.holds.length > t.before.holds.length;
      // Of an engine that the aircraft does not have nothing turns: the report holds everything.
      if (!t.step.state.engines.some((e) => e.n === n)) return held;
      if (!turns(t.step.state, n)) return false;
      return fact.kind === "cranking" || held;
    },
  },
  {
    id: "S22",
    text: "while an engine turns with its arc reported not clear, the alert stands, and no report but a clear arc ends it",
    holds: ({ before, step }) => {
      const after = step.state;
      return after.engines.every(({ n }) => {
        const is = after.arcs[n]?.clear;
        if (before.arcs[n]?.clear === false && is === undefined) return false;
        return is !== false || !turns(after, n) || OVER.has(after.stage) || raised(after, "arcUnsafe", n);
      });
    },
  },
  {
    id: "S23",
    text: "an engine whose oil pressure was read too low after it had come is never made stable, nor another cleared beside it",
    holds: ({ before, step }) => {
      const low = (e: SessionState["engines"][number]) =>
        e.readings.oilPressure !== undefined && e.readings.oilPressure.value < LEAST_OIL;
      return step.state.engines.every((e, i) => {
        const was = before.engines[i];
        if (!was || !low(e)) return true;
        const is = lifeOf(e).is;
        if (is === "stable" && lifeOf(was).is !== "stable") return false;
        const lost = is === "running" || is === "stable";
        return !lost || step.state.engines.every((o) => o.n === e.n || lifeOf(o).is !== "clear");
      });
    },
  },
  {
    id: "S24",
    text: "power that went without leave is not known before volts are read in band: nothing is cleared on it",
    holds: ({ step: { state } }) =>
      state.groundPower.is !== "off" || state.engines.every((e) => lifeOf(e).is !== "clear"),
  },
  {
    id: "S25",
    text: "beside a turning engine without chocks in, brakes released or low raise the alert to all",
    holds: ({ step: { state } }) => {
      const { brakes, chocks, allClearAt, stage } = state;
      const held = brakes?.set === true && (brakes.pressure?.value ?? 0) >= TYPE.brakePressure.atLeast.value;
      const free =
        brakes !== null && !held && chocks?.in === false && allClearAt === null && !OVER.has(stage);
      return !free || !state.engines.some((e) => turns(state, e.n)) || raised(state, "mayRoll", null);
    },
  },
];
