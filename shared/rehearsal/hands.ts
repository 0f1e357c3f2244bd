import { plain } from "../engine/life.ts";
import type { SessionState } from "../session/state.ts";
import { type Controls, type EngineControls, HANDS_OFF } from "../simulation/state.ts";
import type { Run } from "./run.ts";

/** Returns what a good pair of hands does in the cockpit: by what was said in the session, and what the engines do. */
export function goodHands(run: Run, state: SessionState): Controls {
  const pumped = state.engines.find(({ n, life }) => {
    const is = plain(life).is;
    const drives = run.plant.engines.some((e) => e.n === n && e.accessories.includes("vacuumPump"));
    return drives && (is === "caught" || is === "running" || is === "stable");
  });
  return {
    engines: Object.fromEntries(state.engines.map(({ n }) => [n, onEngine(run, state, n)])),
    vacuumFrom: pumped?.n ?? null,
    generators: true,
  };
}

function onEngine(run: Run, state: SessionState, n: number): EngineControls {
  const life = state.engines.find((e) => e.n === n)?.life;
  const sim = run.sim.engines.find((e) => e.n === n);
  if (!life || !sim) return HANDS_OFF;
  const { is } = plain(life);
  switch (is) {
    case "waiting":
    case "shutDown":
    case "cooling":
      return HANDS_OFF;
    case "requested":
    case "clear":
      return { ...HANDS_OFF, boostPump: true, primer: sim.primed < run.plant.primeNeeded };
    case "cranking": {
      const fires = sim.is === "firing" || sim.is === "running";
      const base = { ...HANDS_OFF, starter: sim.is !== "running", ignition: true, boostPump: true };
      // A cockpit that was cleared before the primer was through primes while it turns.
      return { ...base, primer: !fires && sim.primed < run.plant.primeNeeded, mixture: fires ? 0.8 : 0 };
    }
    case "caught":
    case "running":
    case "stable":
      return { ...HANDS_OFF, ignition: true, boostPump: true, mixture: 0.8 };
  }
}
