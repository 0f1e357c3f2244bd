import { Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { playOut } from "../seed/stage.ts";

/** Returns every tenth state of a whole start of the demo's four-engine type, as the scripted partners play it. */
export function recordedStart(): SessionState[] {
  const four = demo.types.find((t) => t.engines.length === 4);
  if (!four) throw new Error("the demo has a four-engine type");
  const stage = new Stage(four, "groundPower");
  stage.everyoneClaims();
  const ended = playOut(stage, { seed: 3, pace: 1, cart: "Bal Maiden" });
  if (ended !== null) throw new Error(`the start does not play out: ${ended}`);
  const states: SessionState[] = [];
  let state: SessionState | null = null;
  for (const event of stage.events) {
    state = evolve(state, event);
    states.push(state);
  }
  return states.filter((_, i) => i % 10 === 0);
}
