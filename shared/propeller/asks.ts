import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { bladesCounted } from "../conditions/propellers.ts";
import { type Engine, isTurning } from "../engine/life.ts";
import { authorityFault } from "../leaves/fault.ts";
import { bladesForEveryCylinder } from "../models/bladeCount.ts";
import type { Post } from "../protocol/posts.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { stillAsk, witnessOf } from "../stopping/asks.ts";
import { bladesDueAt } from "./bladesDue.ts";
import { leftThere } from "./leftThere.ts";

/**
 * Returns the asks for the blades that must be counted before a start: hands on with the crew's leave, count, hands
 * off.
 */
export function blades(state: SessionState, now: number): Ask[] {
  return state.handling?.hands === "fireGuard" ? [] : bladesOf(state, now);
}

function bladesOf(state: SessionState, now: number): Ask[] {
  const left = leftThere(state);
  if (left.length > 0) return left;
  const handling = state.handling;
  if (handling) {
    const engine = state.engines[handling.engine - 1];
    const counted = engine?.blades;
    const free = choice("propellerFree", "yes", send("propellerFree", handling.engine));
    if (turns(state, handling.engine)) return [turning(handling, free)];
    // A propeller that turned under these hands is not turned on by hand: hands come off.
    if (state.returning || engine?.unseen || handling.turned) return [handsOn(handling, free)];
    const atLeast = engine ? bladesToCount(state, engine, now) : 0;
    const count = choice(
      "countBlades",
      "yes",
      { type: "countBlades", engine: handling.engine },
      { is: "blades", atLeast },
    );
    // Fewer blades than the rule asks for are no count. A resistance ends it at once.
    const done =
      counted != null &&
      counted.by.at >= handling.by.at &&
      (counted.resistance ||
        counted.blades >= atLeast ||
        bladesCounted.find(state, handling.engine, now).is === "yes");
    return [
      ask({
        key: `blades:${handling.engine}`,
        say: done ? "propellerFree" : "countBlades",
        weight: 3,
        engine: handling.engine,
        since: handling.by.at,
        choices: done ? [free] : [count, free],
      }),
    ];
  }
  const next = nextToCount(state, now);
  // It turned in this session: before hands go there, somebody must have seen it stand still.
  if (next === undefined || engineOf(state, next)?.unseen) return [];
  if (authorityFault(state, "handlePropeller", now, next)) return [];
  return [
    ask({
      key: `handle:${next}`,
      say: "handlePropeller",
      weight: 3,
      engine: next,
      choices: [choice("handlePropeller", "yes", send("handlePropeller", next))],
    }),
  ];
}

/** Returns the next engine whose blades must be counted; undefined while none must, or cannot be asked for. */
function nextToCount(state: SessionState, now: number): number | undefined {
  const wanted = state.stage === "secure" || state.stage === "starting";
  if (!state.type.conditions.includes("bladesCounted") || !wanted || stopOpen(state)) return undefined;
  if (state.handling || state.signals.some((s) => s.kind === "handlePropeller")) return undefined;
  return state.order.find((n) => !turns(state, n) && bladesCounted.find(state, n, now).is !== "yes");
}

/** Returns the ask whether the propeller stands still whose blades are counted next, to the post that may say so. */
export function stillBeforeCount(state: SessionState, post: Post, now: number): Ask[] {
  const next = nextToCount(state, now);
  if (next === undefined || !engineOf(state, next)?.unseen || witnessOf(state, next) !== post) return [];
  return [stillAsk(next, "propellerStopped")];
}

/** Returns the ask about hands at a propeller that turns: no blade count continues there. */
function turning({ engine, by }: NonNullable<SessionState["handling"]>, free: Choice): Ask {
  return ask({
    key: `turns:${engine}`,
    say: "handsOffTurning",
    weight: 0,
    engine,
    since: by.at,
    choices: [free],
  });
}

/** Returns the ask about hands at a propeller after it turned: nothing is counted there. */
function handsOn({ engine, by }: NonNullable<SessionState["handling"]>, free: Choice): Ask {
  return ask({
    key: `hands:${engine}`,
    say: "handsOn",
    weight: 3,
    engine,
    since: by.at,
    choices: [free],
  });
}

/** Returns the same for the guard, when its own hands are on or nobody holds the ground power post. */
export function bladesByGuard(state: SessionState, now: number): Ask[] {
  const own = state.posts.groundPower === null || state.handling?.hands === "fireGuard";
  return own ? bladesOf(state, now) : [];
}

function turns(state: SessionState, n: number): boolean {
  const engine = state.engines[n - 1];
  return engine !== undefined && isTurning(engine.life);
}

/**
 * Returns the blades that the rule asks for now. If it asks for none, hands on a propeller still turn every cylinder
 * once.
 */
function bladesToCount(state: SessionState, engine: Engine, now: number): number {
  const due = bladesDueAt(state, engine, now);
  if (due.ok && due.value.due) return due.value.blades;
  const least = bladesForEveryCylinder(state.type.propeller);
  return least.ok ? least.value : state.type.propeller.blades;
}
