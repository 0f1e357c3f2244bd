import { alertAsks } from "../alerts/asks.ts";
import { cardAsk } from "../card/asks.ts";
import { checks } from "../checks/asks.ts";
import { barringDefectAsks } from "../defects/asks.ts";
import { lastFor } from "../derived/lastFor.ts";
import { drillSteps } from "../drills/asks.ts";
import { nextEngine, startAsks, unattendedAsks } from "../engine/asks.ts";
import { clearances } from "../engine/clearanceAsks.ts";
import { stopUnsafe } from "../engine/unsafeAsks.ts";
import { guarding } from "../guard/asks.ts";
import { standClear } from "../leaves/asks.ts";
import { overrideAsks } from "../overrides/asks.ts";
import { abandonAsk } from "../plan/abandonAsk.ts";
import { allClearAsk, goBack, nextStage } from "../plan/asks.ts";
import { briefAsk, presenceAsk } from "../posts/asks.ts";
import { connecting, disconnecting, powerOff, voltsCranked } from "../power/asks.ts";
import { blades, bladesByGuard, stillBeforeCount } from "../propeller/asks.ts";
import type { Post } from "../protocol/posts.ts";
import { gates, idleAsk, runUp } from "../runUp/asks.ts";
import { isOver, type SessionState } from "../session/state.ts";
import { askedBySignals } from "../signals/asks.ts";
import { coolDownBegins, onStandAsk, remarkAsk, stillAsks, stopNext, switchesAsk } from "../stopping/asks.ts";
import { cutAgain, ownStops } from "../stops/asks.ts";
import { lightningAsk, withoutLightning } from "../weather/lightningAsks.ts";
import { brakes, chocksIn, chocksOut, insertChocks, removeChocks, stopInboard } from "../wheels/asks.ts";
import type { Ask } from "./ask.ts";
import { inOrder } from "./inOrder.ts";

type Asks = (state: SessionState, now: number) => Ask[];

const cardOf =
  (post: Post): Asks =>
  (state, now) =>
    cardAsk(state, post, now);

const stillOf =
  (post: Post): Asks =>
  (state, now) => [...stillAsks(state, post), ...stillBeforeCount(state, post, now)];

/** The asks of one post alone. */
const OF_POST: Readonly<Record<Post, readonly Asks[]>> = {
  cockpit: [
    cutAgain,
    stopUnsafe,
    brakes,
    startAsks,
    cardOf("cockpit"),
    nextEngine,
    idleAsk,
    gates,
    runUp,
    powerOff,
    stopInboard,
    removeChocks,
    insertChocks,
    coolDownBegins,
    stopNext,
    switchesAsk,
    remarkAsk,
  ],
  fireGuard: [guarding, bladesByGuard, stillOf("fireGuard"), cardOf("fireGuard")],
  groundPower: [
    standClear,
    chocksIn,
    connecting,
    voltsCranked,
    disconnecting,
    chocksOut,
    blades,
    stillOf("groundPower"),
    cardOf("groundPower"),
  ],
  supervisor: [
    clearances,
    unattendedAsks,
    barringDefectAsks,
    allClearAsk,
    nextStage,
    goBack,
    onStandAsk,
    stillOf("supervisor"),
    cardOf("supervisor"),
  ],
};

/**
 * Returns everything that is asked of one post now, most pressing first. The panels show the first one large; a
 * scripted partner answers the same list. Pure: the caller gives the server's estimated time.
 */
export function askedOf(state: SessionState, post: Post, now: number): readonly Ask[] {
  const known = lastAsks(state, now);
  known[post] ??= asksOf(state, post, now);
  return known[post];
}

/** The asks of each post that were worked out last for a state. */
const lastAsks = lastFor((_state: SessionState): Partial<Record<Post, readonly Ask[]>> => ({}));

function asksOf(state: SessionState, post: Post, now: number): Ask[] {
  if (isOver(state)) return [];
  const asks = [
    ...lightningAsk(state, post, now),
    ...askedBySignals(state, post, now),
    ...alertAsks(state, post, now),
    ...OF_POST[post].flatMap((asks) => asks(state, now)),
    ...drillSteps(state, post),
    ...overrideAsks(state, post),
    ...abandonAsk(state, post, now),
    ...presenceAsk(state, post, now),
    ...briefAsk(state, post),
    ...checks(state, post, now),
    ...ownStops(state, post, now),
  ];
  return inOrder(withoutLightning(asks, state, post, now));
}
