import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { FROM_SECURE } from "../protocol/stages.ts";
import type { SessionState } from "../session/state.ts";
import { leavesEnded } from "./out.ts";

/**
 * Returns the ask to ground power whether its people are clear, after its leave ended while they may be at the
 * aircraft.
 */
export function standClear(state: SessionState): Ask[] {
  if (!FROM_SECURE.includes(state.stage)) return [];
  return leavesEnded(state).map(({ service, by, no }) =>
    ask({
      key: `standClear:${no ?? service}`,
      say: "standClear",
      weight: 0,
      since: by.at,
      choices: [clearChoice()],
    }),
  );
}

/** Returns the choice that people are clear of the aircraft and the work was not done. */
export function clearChoice(tone: Choice["tone"] = "yes"): Choice {
  return choice("clearOfAircraft", tone, send("clearOfAircraft"));
}
