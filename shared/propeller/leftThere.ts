import { type Ask, ask, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import type { SessionState } from "../session/state.ts";
import { stillAsk } from "../stopping/asks.ts";

/**
 * Returns the asks about hands that an earlier session left on a propeller, or a propeller it left turning. Nobody may
 * go there before they are answered.
 */
export function leftThere(state: SessionState): Ask[] {
  const { standing } = state;
  if (!standing) return [];
  const hands = standing.hands.map(({ engine, by }) =>
    ask({
      key: `handsLeft:${engine}`,
      say: "propellerLeft",
      weight: 3,
      engine,
      since: by.at,
      from: by.name,
      choices: [choice("propellerFree", "yes", send("propellerFree", engine))],
    }),
  );
  const turning = state.returning
    ? []
    : standing.turning.map(({ engine }) => stillAsk(engine, "propellerStill"));
  return [...hands, ...turning];
}
