import { SERVICES as KINDS, type Service } from "../../../shared/leaves/services.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { TYPE } from "../model.ts";
import { type Move, postOf } from "../moves.ts";
import { type Invariant, lifeOf } from "./invariant.ts";

const live = (state: SessionState, service: Service) => {
  const authority = state.authorities[service];
  return authority !== null && authority.epoch === state.epoch;
};

/** The report that ends each leave because its work is done. */
const DONE: Readonly<Record<string, string>> = {
  connectPower: "powerConnected",
  disconnectPower: "powerDisconnected",
  insertChocks: "chocksIn",
  removeChocks: "chocksOut",
};

function inBand({ groundPower: power }: SessionState): boolean {
  const { steadyMin, steadyMax } = TYPE.groundPower;
  return power.is === "on" && power.volts.value >= steadyMin.value && power.volts.value <= steadyMax.value;
}

/** Returns whether the cockpit itself acts, as the search reads the state. */
function givesLeave(before: SessionState, move: Move): boolean {
  return move.is === "act" && postOf(before, move.by) === "cockpit";
}

export const SERVICES: readonly Invariant[] = [
  {
    id: "I15",
    text: "power in band comes on only on the crew's leave of the same epoch; hands go on a propeller only on the crew's word",
    holds: ({ before, step, move }) => {
      const after = step.state;
      if (after.groundPower !== before.groundPower) {
        const was = before.groundPower.is;
        const is = after.groundPower.is;
        if (is === "on" && was !== "on" && inBand(after) && !live(before, "connectPower")) return false;
      }
      // Hands go on a propeller only on the crew's leave, which states that ignition is off.
      return after.handling === null || before.handling !== null || givesLeave(before, move);
    },
  },
  {
    id: "S6",
    text: "the crew's leave comes from the cockpit itself, with no stop open, and for chocks out with the brakes holding",
    holds: ({ before, step, move, now }) => {
      const after = step.state;
      if (after.authorities === before.authorities) return true;
      return KINDS.every((service) => {
        const is = after.authorities[service];
        if (is === null || is.signal === before.authorities[service]?.signal) return true;
        if (move.is !== "act" || before.posts.cockpit?.id !== move.by.id) return false;
        if (before.posts.cockpit.device !== move.by.device) return false;
        if (move.action.type === "send" && move.action.seenFrom !== undefined) return false;
        if (before.holds.length + before.cuts.length + before.fires.length > 0) return false;
        if (service === "handlePropeller") {
          return before.engines.every((e) => e.life.is !== "clear" && lifeOf(e).is !== "cranking");
        }
        if (service !== "removeChocks") return true;
        const { brakes } = before;
        return (
          brakes?.set === true &&
          (brakes.pressure?.value ?? 0) >= TYPE.brakePressure.atLeast.value &&
          now < brakes.at + TYPE.timing.brakes.value * 1000
        );
      });
    },
  },
  {
    id: "S11",
    text: "a leave given is out, and is out until ground power reports it done or everybody clear",
    holds: ({ before, step, move }) => {
      const after = step.state.leavesOut ?? [];
      const given = KINDS.filter((k) => k !== "handlePropeller" && step.state.authorities[k] !== null);
      if (given.some((k) => !after.some((l) => l.service === k))) return false;
      const gone = (before.leavesOut ?? []).filter((l) => !after.some((a) => a.service === l.service));
      if (gone.length === 0) return true;
      if (move.is !== "act" || move.action.type !== "send" || step.refusal) return false;
      const { kind } = move.action;
      return kind === "clearOfAircraft" || gone.every((l) => DONE[l.service] === kind);
    },
  },
  {
    id: "S9",
    text: "a condition is set aside by two people on two devices, the second within the type's time",
    holds: ({ before, step, move, now }) => {
      if (step.state.overrides === before.overrides) return true;
      return step.state.overrides.every((o) => {
        const asked = before.overrides.find((b) => b.id === o.id);
        if (o.second === null || asked?.second) return true;
        if (!asked || move.is !== "act" || o.condition !== "brakesSet") return false;
        const { person, device, at } = asked.first;
        const apart = person !== move.by.id && device !== move.by.device;
        return apart && now < at + TYPE.timing.override.value * 1000;
      });
    },
  },
  {
    id: "S12",
    text: "no clearance stands on brakes set aside before the newest report of them, unless they hold",
    holds: ({ step: { state }, now }) =>
      state.engines.every((e) => {
        if (lifeOf(e).is !== "clear") return true;
        const { brakes } = state;
        const least = TYPE.brakePressure.atLeast.value;
        const fresh = brakes !== null && now < brakes.at + TYPE.timing.brakes.value * 1000;
        const hold = brakes?.set === true && (brakes.pressure?.value ?? 0) >= least && fresh;
        const asked = state.overrides.find((o) => o.engine === e.n && o.condition === "brakesSet");
        return hold || (asked !== undefined && (brakes === null || brakes.seq < asked.id));
      }),
  },
  {
    id: "S7",
    text: "the session moves one stage at a time, with no stop open, and is released only with chocks out and all clear",
    holds: ({ before, step }) => {
      const to = step.state.stage;
      if (to === before.stage) return true;
      if (to === "abandoned") return before.engines.every((e) => !["caught", "running"].includes(e.life.is));
      if (before.holds.length + before.cuts.length + before.fires.length > 0) return false;
      if (to !== "closed") return true;
      if (before.returning) return before.stage === "stowing";
      return before.stage === "release" && before.chocks?.in === false && before.allClearAt !== null;
    },
  },
];
