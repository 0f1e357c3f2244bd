import { clearToStart, revokeClearance } from "../engine/clearToStart.ts";
import { cranking } from "../engine/cranking.ts";
import { readyToStart } from "../engine/request.ts";
import { caught, shutDown, startAbandoned, started } from "../engine/running.ts";
import { arcClear, arcNotClear, guardAway, guardInPlace, peopleAtAircraft } from "../guard/signals.ts";
import { clearOfAircraft } from "../leaves/clearOfAircraft.ts";
import { allClear } from "../plan/allClear.ts";
import { connectPower, disconnectPower, powerConnected, powerDisconnected } from "../power/signals.ts";
import { handlePropeller, propellerFree } from "../propeller/hands.ts";
import { propellerStill } from "../propeller/still.ts";
import type { SignalKind } from "../protocol/signals.ts";
import { cut, cutAll, resetCut } from "../stops/cut.ts";
import { fire, fireOut } from "../stops/fire.ts";
import { hold, release } from "../stops/hold.ts";
import { turning } from "../stops/turning.ts";
import {
  brakesReleased,
  brakesSet,
  chocksIn,
  chocksOut,
  insertChocks,
  removeChocks,
} from "../wheels/signals.ts";
import type { SignalDefinition } from "./definition.ts";
import { negative } from "./negative.ts";

/** Every kind of signal and its one definition. */
export const SIGNALS = {
  readyToStart,
  clearToStart,
  cranking,
  caught,
  started,
  startAbandoned,
  shutDown,
  revokeClearance,
  turning,
  guardInPlace,
  arcClear,
  arcNotClear,
  guardAway,
  peopleAtAircraft,
  hold,
  release,
  cut,
  cutAll,
  resetCut,
  fire,
  fireOut,
  connectPower,
  powerConnected,
  disconnectPower,
  powerDisconnected,
  insertChocks,
  chocksIn,
  removeChocks,
  chocksOut,
  clearOfAircraft,
  handlePropeller,
  propellerFree,
  propellerStill,
  brakesSet,
  brakesReleased,
  allClear,
  negative,
} as const satisfies Record<SignalKind, SignalDefinition>;

/**
 * Returns the definition of a kind.
 * @throws Error for a kind without a definition, so that no unknown signal is ever decided
 */
export function signalOf(kind: SignalKind): SignalDefinition {
  const definition: SignalDefinition | undefined = SIGNALS[kind];
  if (!definition) throw new Error(`no definition of the signal "${kind}"`);
  return definition;
}
