import { withEngine } from "../engine/evolve.ts";
import { plain } from "../engine/life.ts";
import { ofEngine, wrongState } from "../engine/ofEngine.ts";
import { leastOil, oilLost } from "../engine/oilLost.ts";
import { engineOf, stopOpen } from "../session/state.ts";
import { accept, refuse } from "../session/verdict.ts";
import { signal } from "../signals/kinds.ts";
import { fasterIdle, idleReached } from "./idleSteps.ts";

/** One engine was set to the next step of its idle, which its figure allows. */
export const idleFaster = signal({
  from: ["cockpit"],
  stages: ["starting", "warmUp"],
  engine: "required",
  decide: ofEngine((state, send, engine) => {
    if (stopOpen(state)) return refuse("stopOpen");
    if (plain(engine.life).is !== "stable") return wrongState(engine);
    const gone = oilLost(state, engine);
    if (gone) return refuse("oilLost", { engine: engine.n, found: `${leastOil(state)} ${gone.unit}` });
    if (fasterIdle(state, engine)) return accept({ ...send, type: "sent" });
    const waits = idleReached(state, engine)?.next?.from;
    if (!waits) return refuse("alreadyDone");
    const { value, unit } = "riseOf" in waits ? waits.riseOf : waits.atLeast;
    return refuse("missingFigure", { found: `${value} ${unit}` });
  }),
  evolve: (state, _event, { engine: n = 0 }) => {
    const engine = engineOf(state, n);
    const faster = engine && fasterIdle(state, engine);
    return faster ? withEngine(state, n, (e) => ({ ...e, idleStep: faster.index })) : state;
  },
});
