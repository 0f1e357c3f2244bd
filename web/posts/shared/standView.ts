import { isTurning } from "../../../shared/engine/life.ts";
import { type GuardCase, guardPlace, guardWalk, turningBut } from "../../../shared/guard/walk.ts";
import type { Separation } from "../../../shared/models/geometry/separation.ts";
import { arcOf, clearOf, keptBehind, outlinesOf, type StandCase } from "../../../shared/plan/standPlan.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { StandView } from "../../ui/plan/standView.ts";

/** Returns the stand without guard: which engines' arcs are hatched is the caller's choice. */
function standOf(stand: StandCase, hatched: ReadonlySet<number>): StandView {
  const clear = clearOf(stand);
  const checks = clear.ok ? clear.value : [];
  const outlines = outlinesOf(stand);
  return {
    type: stand.type,
    arcs: stand.type.engines.flatMap(({ n }) => {
      const corners = arcOf(stand.type, n);
      return corners ? [{ n, turning: hatched.has(n), corners }] : [];
    }),
    behind: keptBehind(stand).map(({ engine, metres, polygon }) => ({ n: engine, metres, corners: polygon })),
    walk: [],
    guard: null,
    near: outlines.ok
      ? outlines.value.map(({ id, outline }) => {
          const of = checks.filter((c) => c.id === id);
          return {
            name: stand.neighbours[Number(id)]?.name ?? "",
            tooNear: of.some((c) => !c.clear),
            metres: leastOf(of)?.gap ?? null,
            corners: outline,
          };
        })
      : [],
  };
}

/** Returns the check that decides: the worst of those not met, otherwise the least distance. */
function leastOf(checks: readonly Separation[]): Separation | undefined {
  const close = checks.filter((c) => !c.clear);
  return [...(close.length > 0 ? close : checks)].sort((a, b) => a.gap - b.gap)[0];
}

/** Returns the stand of a plan: the engines to start are hatched, and the guard goes to the first of them. */
export function plannedStand(stand: StandCase): StandView {
  const planned: GuardCase = { type: stand.type, engines: [], guard: null };
  const [first] = stand.engines;
  return {
    ...standOf(stand, new Set(stand.engines)),
    walk: first === undefined ? [] : wayTo(planned, first),
    guard: stand.type.ramp?.guard?.waits ?? null,
  };
}

/** Returns the stand at this moment: turning engines, the guard's position and path to the engine at hand. */
export function standNow(state: SessionState, stand: StandCase, engine: number | null): StandView {
  const turning = new Set(state.engines.filter((e) => isTurning(e.life)).map((e) => e.n));
  const at = state.guard?.engine ?? null;
  const place = at === null ? null : guardPlace(state, at, turningBut(state, at));
  return {
    ...standOf(stand, turning),
    walk: engine === null || at === engine ? [] : wayTo(state, engine),
    guard: place?.ok ? place.value : at === null ? (state.type.ramp?.guard?.waits ?? null) : null,
  };
}

function wayTo(state: GuardCase, engine: number): StandView["walk"] {
  const walk = guardWalk(state, engine);
  return walk.ok ? walk.value.points : [];
}
