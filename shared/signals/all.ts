import * as clearance from "../engine/clearToStart.ts";
import * as cranking from "../engine/cranking.ts";
import * as request from "../engine/request.ts";
import * as running from "../engine/running.ts";
import * as guard from "../guard/signals.ts";
import * as clearOfAircraft from "../leaves/clearOfAircraft.ts";
import * as allClear from "../plan/allClear.ts";
import * as power from "../power/signals.ts";
import * as hands from "../propeller/hands.ts";
import * as still from "../propeller/still.ts";
import type { SignalKind } from "../protocol/signals.ts";
import * as runUp from "../runUp/signals.ts";
import * as stopping from "../stopping/signals.ts";
import * as cut from "../stops/cut.ts";
import * as disregard from "../stops/disregard.ts";
import * as fire from "../stops/fire.ts";
import * as hold from "../stops/hold.ts";
import * as turning from "../stops/turning.ts";
import * as wheels from "../wheels/signals.ts";
import type { SignalDefinition } from "./definition.ts";
import * as negative from "./negative.ts";

/** Every export of these files is the definition of a kind, under its name. */
const DEFINED = {
  ...clearance,
  ...cranking,
  ...request,
  ...running,
  ...guard,
  ...clearOfAircraft,
  ...allClear,
  ...power,
  ...hands,
  ...still,
  ...runUp,
  ...stopping,
  ...cut,
  ...disregard,
  ...fire,
  ...hold,
  ...turning,
  ...wheels,
  ...negative,
};

/** Does not compile while a kind with words lacks its definition, or a definition its words. */
export const SIGNALS = DEFINED satisfies Record<SignalKind, SignalDefinition> &
  Record<Exclude<keyof typeof DEFINED, SignalKind>, never>;

/**
 * Returns the definition of a kind.
 * @throws Error for a kind without a definition, so that no unknown signal is ever decided
 */
export function signalOf(kind: SignalKind): SignalDefinition {
  const definition: SignalDefinition | undefined = SIGNALS[kind];
  if (!definition) throw new Error(`no definition of the signal "${kind}"`);
  return definition;
}
