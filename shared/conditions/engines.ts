import { attemptsSinceRun } from "../engine/attempts.ts";
import { isTurning, plain } from "../engine/life.ts";
import { oilLost } from "../engine/oilLost.ts";
import { inboardEngines } from "../models/inboard.ts";
import { starterDutyAt } from "../models/starter.ts";
import { engineOf } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import type { ReportedCondition } from "./definition.ts";

/** No other engine is cranking or cleared to crank: one guard covers one engine. */
export const noOtherTurningUp: ReportedCondition<"noOtherTurningUp"> = {
  id: "noOtherTurningUp",
  owners: ["cockpit"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: false,
  find(state, engine) {
    const other = state.engines.find((e) => {
      const is = plain(e.life).is;
      return e.n !== engine && (is === "cranking" || is === "clear");
    });
    if (!other) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: null, by: null, until: null, found: String(other.n) };
  },
};

/** Every other engine has not caught, is stable with its oil pressure, or is shut down; none is between these. */
export const othersSettled: ReportedCondition<"othersSettled"> = {
  id: "othersSettled",
  owners: ["cockpit"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: false,
  find(state, engine) {
    const other = state.engines.find(
      (e) =>
        e.n !== engine &&
        (e.life.is === "caught" || e.life.is === "running" || e.life.is === "fire" || oilLost(state, e)),
    );
    if (!other) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: null, by: null, until: null, found: String(other.n) };
  },
};

/** The starter has rested as long as its ladder requires. Time alone meets this condition. */
export const starterCool: ReportedCondition<"starterCool"> = {
  id: "starterCool",
  owners: ["cockpit"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: false,
  find(state, engine, now) {
    const uses = engineOf(state, engine)?.starter ?? [];
    const { permittedAt } = starterDutyAt(state.type.starter, uses, now, airTemperature(state));
    if (now >= permittedAt) return { is: "yes", at: null, by: null, until: null };
    const until = Number.isFinite(permittedAt) ? permittedAt : null;
    return { is: "no", at: uses.at(-1)?.off ?? null, by: null, until };
  },
};

/**
 * The starter was engaged less often since this engine last ran, in this session and before it, than the type allows
 * before the reason is looked for. Two people who found the reason set it aside; one attempt more ends that.
 */
export const attemptsLeft: ReportedCondition<"attemptsLeft"> = {
  id: "attemptsLeft",
  owners: ["cockpit"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: false,
  find(state, n) {
    const engine = engineOf(state, n);
    const most = state.type.starter.attempts;
    if (!engine || !most) return { is: "unknown", at: null, by: null, until: null };
    const made = attemptsSinceRun(engine);
    if (made < most.value) return { is: "yes", at: null, by: null, until: null };
    const at = engine.starter.at(-1)?.off ?? null;
    return { is: "no", at, by: null, until: null, found: String(made) };
  },
};

/** If the type requires it: the engine nearest the wheels on each side stands still before anybody removes a chock. */
export const inboardStopped: ReportedCondition<"inboardStopped"> = {
  id: "inboardStopped",
  owners: ["cockpit"],
  scope: { removeChocks: "ifListed", insertChocks: "ifListed" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: false,
  find(state) {
    const turning = inboardEngines(state.type).find((n) => {
      const engine = state.engines[n - 1];
      return engine && isTurning(engine.life);
    });
    if (turning === undefined) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: null, by: null, until: null, found: String(turning) };
  },
};
