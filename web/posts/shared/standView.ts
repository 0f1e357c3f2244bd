import { isTurning } from "../../../shared/engine/life.ts";
import { guardPlace, guardWalk, turningBut } from "../../../shared/guard/walk.ts";
import { arcOf, clearOf, keptBehind, outlinesOf, type StandCase } from "../../../shared/plan/standPlan.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { StandView } from "../../ui/plan/standView.ts";

/** Returns the planned stand, with no engine turning and no guard. */
export function plannedStand(stand: StandCase): StandView {
  const clear = clearOf(stand);
  const close = new Set(clear.ok ? clear.value.filter((c) => !c.clear).map((c) => c.id) : []);
  const outlines = outlinesOf(stand);
  return {
    type: stand.type,
    arcs: stand.type.engines.flatMap(({ n }) => {
      const corners = arcOf(stand.type, n);
      return corners ? [{ n, turning: false, corners }] : [];
    }),
    behind: keptBehind(stand).map(({ engine, polygon }) => ({ n: engine, corners: polygon })),
    walk: [],
    guard: null,
    near: outlines.ok
      ? outlines.value.map(({ id, outline }) => ({
          name: stand.neighbours[Number(id)]?.name ?? "",
          tooNear: close.has(id),
          corners: outline,
        }))
      : [],
  };
}

/** Returns the stand at this moment: turning engines, the guard's position and path to the engine at hand. */
export function standNow(state: SessionState, stand: StandCase, engine: number | null): StandView {
  const view = plannedStand(stand);
  const turning = new Set(state.engines.filter((e) => isTurning(e.life)).map((e) => e.n));
  const at = state.guard?.engine ?? null;
  const walk = engine === null || at === engine ? null : guardWalk(state, engine);
  const place = at === null ? null : guardPlace(state, at, turningBut(state, at));
  return {
    ...view,
    arcs: view.arcs.map((a) => ({ ...a, turning: turning.has(a.n) })),
    walk: walk?.ok ? walk.value.points : [],
    guard: place?.ok ? place.value : at === null ? (state.type.ramp?.guard?.waits ?? null) : null,
  };
}
