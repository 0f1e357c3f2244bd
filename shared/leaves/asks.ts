import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import type { SessionState } from "../session/state.ts";
import { leavesEnded } from "./out.ts";

/** Ground power is told that its leave ended while its people may be at the aircraft, and is asked whether they are clear. */
export function standClear(state: SessionState): Ask[] {
  return leavesEnded(state).map(({ service, by }) =>
    ask({
      key: `standClear:${service}`,
      say: "standClear",
      weight: 0,
      since: by.at,
      choices: [clearChoice()],
    }),
  );
}

/** The people are clear of the aircraft, and the work was not done. */
export function clearChoice(tone: Choice["tone"] = "yes"): Choice {
  return choice("clearOfAircraft", tone, send("clearOfAircraft"));
}
