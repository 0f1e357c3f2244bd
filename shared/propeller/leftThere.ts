import { type Ask, ask, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the asks about hands that an earlier session left on a propeller, or a propeller it left turning. Nobody may
 * go there before they are answered.
 */
export function leftThere({ standing }: SessionState): Ask[] {
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
  const turning = standing.turning.map(({ engine }) =>
    ask({
      key: `still:${engine}`,
      say: "propellerStill",
      weight: 3,
      engine,
      choices: [choice("propellerStill", "yes", send("propellerStill", engine))],
    }),
  );
  return [...hands, ...turning];
}
