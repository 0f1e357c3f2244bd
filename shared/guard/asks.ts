import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { arcClear, guardInPlace, guardPathClear } from "../conditions/guard.ts";
import { needsRenewal } from "../conditions/renewal.ts";
import { plain } from "../engine/life.ts";
import { lifeAt } from "../engine/lifeAt.ts";
import { type SessionState, stopOpen } from "../session/state.ts";
import { turningOnTheWay } from "./way.ts";

/** Returns the fire guard's asks: go to the requested engine, report in place, then look along the arc. */
export function guarding(state: SessionState, now: number): Ask[] {
  if (stopOpen(state)) return [];
  return state.engines.flatMap((e) => {
    const life = plain(lifeAt(e.life, now));
    if (life.is !== "requested" && life.is !== "clear") return [];
    const base = { weight: 2 as const, engine: e.n, since: life.since };
    const due = (c: typeof guardInPlace | typeof arcClear) =>
      c.find(state, e.n, now).is !== "yes" || needsRenewal(state, c, e.n, now);
    if (due(guardInPlace)) {
      return [
        ask({
          ...base,
          key: `guard:${e.n}`,
          say: guardInPlace.find(state, e.n, now).is === "yes" ? "guardStill" : "guardInPlace",
          choices: [inPlace(state, e.n)],
        }),
      ];
    }
    if (
      guardPathClear.find(state, e.n, now).is === "no" &&
      state.type.conditions.includes("guardPathClear")
    ) {
      return [ask({ ...base, key: `path:${e.n}`, say: "guardPath", choices: [inPlace(state, e.n)] })];
    }
    if (!due(arcClear)) return [];
    return [
      ask({
        ...base,
        key: `arc:${e.n}`,
        say: "arcClear",
        choices: [
          choice("arcClear", "yes", send("arcClear", e.n)),
          choice("arcNotClear", "no", send("arcNotClear", e.n)),
        ],
      }),
    ];
  });
}

/**
 * Returns the choice to report in place. If a turning engine is on the straight way, the guard also reports having
 * walked around it.
 */
function inPlace(state: SessionState, n: number): Choice {
  const turning = turningOnTheWay(state, state.guard?.engine ?? null, n);
  if (turning === undefined && state.guard?.crossed == null) {
    return choice("guardInPlace", "yes", send("guardInPlace", n));
  }
  return choice("guardWalkedAround", "yes", { ...send("guardInPlace", n), walkedAround: true });
}
