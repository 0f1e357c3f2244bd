import { type Ask, ask, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { conditionOf, findUnmet } from "../conditions/all.ts";
import { starterDutyAt } from "../models/starter.ts";
import { reading } from "../readings/ask.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { type Engine, isTurning, plain } from "./life.ts";
import { lifeAt } from "./lifeAt.ts";
import { isNextFree, nextInOrder } from "./nextInOrder.ts";
import { oilLost } from "./oilLost.ts";
import { oilAlertStands, stoppedWithoutOil } from "./oilUnknown.ts";

/** Returns what the start of each engine asks of the cockpit. */
export function startAsks(state: SessionState, now: number): Ask[] {
  return state.engines.flatMap((e) => ofEngine(state, e, now));
}

function ofEngine(state: SessionState, engine: Engine, now: number): Ask[] {
  const life = plain(lifeAt(engine.life, now));
  const n = engine.n;
  const base = { key: `engine:${n}:${life.is}`, weight: 2 as const, engine: n };
  const stop = choice("shutDown", "no", send("shutDown", n));
  switch (life.is) {
    case "clear":
      if (life.clearance.readBackAt === null) return [];
      return [
        ask({
          ...base,
          say: "crank",
          since: life.since,
          dueAt: life.clearance.expiresAt,
          choices: [
            choice("cranking", "yes", { ...send("cranking", n), ref: life.clearance.id }),
            choice("startAbandoned", "no", send("startAbandoned", n)),
          ],
        }),
      ];
    case "cranking":
      return [
        ask({
          ...base,
          say: "cranking",
          since: life.since,
          dueAt: life.limitAt,
          choices: [
            choice("caught", "yes", send("caught", n)),
            choice("startAbandoned", "no", send("startAbandoned", n)),
          ],
        }),
      ];
    case "caught":
      return [
        ask({
          ...base,
          say: life.firstOilAt === null ? "oilFirst" : "oilNormal",
          since: life.since,
          dueAt: life.firstOilAt === null ? life.firstDueAt : life.normalDueAt,
          choices: [reading(state, "oilPressure", n), stop],
        }),
      ];
    case "running":
      if (oilLost(state, engine)) return [];
      return [
        ask({
          ...base,
          say: "settle",
          since: life.since,
          choices: [choice("started", "yes", send("started", n)), stop],
        }),
      ];
    case "waiting":
    case "requested":
    case "stable":
    case "shutDown":
    case "cooling":
      return [];
  }
}

/** Returns the asks to the supervisor about each engine that turns while nobody holds the cockpit's post. */
export function unattendedAsks(state: SessionState): Ask[] {
  if (state.posts.cockpit !== null) return [];
  return state.engines
    .filter((e) => isTurning(e.life))
    .map((e) => {
      const seen = plain(e.life).is === "cranking" ? [choice("caught", "yes", send("caught", e.n))] : [];
      return ask({
        key: `unattended:${e.n}`,
        say: "unattended",
        weight: 2,
        engine: e.n,
        choices: [...seen, choice("shutDown", "no", send("shutDown", e.n))],
      });
    });
}

/** Returns the ask for the next engine of the order, once no other engine is being started. */
export function nextEngine(state: SessionState, now: number): Ask[] {
  const n = isNextFree(state) ? nextInOrder(state) : null;
  if (n === null) return [];
  const engine = engineOf(state, n);
  const uses = engine?.starter ?? [];
  const { permittedAt } = starterDutyAt(state.type.starter, uses, now, airTemperature(state));
  if (now < permittedAt) {
    return [ask({ key: `cool:${n}`, say: "starterCooling", weight: 4, engine: n, dueAt: permittedAt })];
  }
  const before = findUnmet(state, n, now).find((u) => conditionOf(u.id).askedBefore);
  const oil = engine !== undefined && stoppedWithoutOil(state, engine);
  // The start waits for the open drill of the lost oil: the ask says so and offers no choice.
  if (oil && before?.id === "noDrillBars") return [{ ...oilUnknown(state, n), choices: [] }];
  if (before) {
    const detail = { is: "condition", condition: before.id } as const;
    return [ask({ key: `wait:${n}`, say: "startWaits", weight: 4, engine: n, detail })];
  }
  if (oil) return [oilUnknown(state, n)];
  return [
    ask({
      key: `next:${n}`,
      say: "readyToStart",
      weight: 2,
      engine: n,
      choices: [choice("readyToStart", "yes", send("readyToStart", n))],
    }),
  ];
}

/**
 * Returns the ask for a start after lost oil: the cockpit may request again with the reason that was found. It offers
 * no choice while the alert or its drill is open.
 */
function oilUnknown(state: SessionState, n: number): Ask {
  const again = choice("readyToStart", "plain", send("readyToStart", n), { is: "reason" });
  return ask({
    key: `oil:${n}`,
    say: "oilUnknown",
    weight: 4,
    engine: n,
    choices: oilAlertStands(state, n) ? [] : [again],
  });
}
