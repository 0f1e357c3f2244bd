import { LIVE_STAGES } from "../protocol/stages.ts";
import { accept, refuse } from "../session/verdict.ts";
import { closeKinds } from "../signals/close.ts";
import type { SignalDefinition } from "../signals/definition.ts";
import { signal } from "../signals/kinds.ts";
import { coolDownCut } from "../stopping/coolDown.ts";
import * as engines from "./evolve.ts";
import { isTurning, plain } from "./life.ts";
import { ofEngine, whenEngineIs, wrongState } from "./ofEngine.ts";
import { oilNeverCame } from "./oilLate.ts";
import { leastOil, oilLost } from "./oilLost.ts";

/**
 * A report of the crew about one engine. It is accepted in every live stage, because an engine may be found turning at
 * any time.
 */
const report = { from: ["cockpit"], stages: LIVE_STAGES, engine: "required" } as const;
const keys = { own: ["cockpit"], seenBy: [] } as const;

/** The supervisor may send these reports too while nobody holds the cockpit's post. */
const whileVacant = { from: ["cockpit", "supervisor"] } as const;

function seenByCrew(decide: SignalDefinition["decide"]): SignalDefinition["decide"] {
  return (state, send, context) =>
    context.post === "supervisor" && state.posts.cockpit !== null
      ? refuse("wrongPost", { posts: ["cockpit"] })
      : decide(state, send, context);
}

export const caught = signal({
  ...report,
  ...whileVacant,
  decide: seenByCrew(whenEngineIs("cranking")),
  evolve: (state, event, fact) => engines.caught(state, fact.engine ?? 0, event.at),
  menu: { ...keys, when: ["cranking"], tone: "plain" },
});

export const started = signal({
  ...report,
  decide: ofEngine((state, send, engine) => {
    if (plain(engine.life).is !== "running") return wrongState(engine);
    const gone = oilLost(state, engine);
    if (!gone) return accept({ ...send, type: "sent" });
    const found = `${leastOil(state)} ${gone.unit}`;
    return refuse("oilLost", { engine: engine.n, found });
  }),
  evolve: (state, event, fact) =>
    engines.withEngine(state, fact.engine ?? 0, (e) =>
      engines.withLife(e, { is: "stable", since: event.at }),
    ),
  menu: { ...keys, when: ["running"], tone: "plain" },
});

export const startAbandoned = signal({
  ...report,
  decide: whenEngineIs("requested", "clear", "cranking"),
  evolve(state, event, fact) {
    const n = fact.engine ?? 0;
    const closed = closeKinds(state, ["readyToStart", "clearToStart"], "superseded", n);
    return engines.abandonStart(closed, n, event);
  },
  menu: { ...keys, when: ["requested", "clear", "cranking"], tone: "no" },
});

export const shutDown = signal({
  ...report,
  ...whileVacant,
  decide: seenByCrew(
    ofEngine((state, send, engine, { now }) =>
      isTurning(engine.life)
        ? accept({ ...send, type: "sent" }, ...oilNeverCame(engine, now), ...coolDownCut(state, engine, now))
        : wrongState(engine),
    ),
  ),
  evolve: (state, event, fact) => engines.shutDown(state, fact.engine ?? 0, event, fact.note ?? "reported"),
  menu: { ...keys, when: ["cranking", "caught", "running", "stable"], tone: "no" },
});
