import { type Ask, ask, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import type { SessionState } from "../session/state.ts";

/** An earlier session left hands on a propeller, or a propeller turning: nobody goes there before that is cleared up. */
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
