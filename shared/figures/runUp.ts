import { type Engine, isTurning } from "../engine/life.ts";
import { featherCheck } from "../models/runUp/feather.ts";
import { magnetoCheck } from "../models/runUp/magneto.ts";
import { pressureSpread } from "../models/runUp/manifoldPressure.ts";
import type { RunUpItem } from "../protocol/commands.ts";
import { releaseVerdict, runUpFault } from "../runUp/verdict.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { say } from "../words/en.ts";
import { outcomesOf } from "../words/outcomes.ts";
import { cautions, type Figure, ofType, read } from "./figure.ts";

const items = (engine: Engine, ...list: RunUpItem[]) =>
  list.map((i) => read(`${say.runUpItem(i)}, number ${engine.n}`, engine.runUp?.[i] ?? null));
const value = (engine: Engine, item: RunUpItem) => engine.runUp?.[item]?.value ?? Number.NaN;

/** Returns the larger of the two magneto drops, and every fault found. */
export function magnetoFigure(state: SessionState, n: number): Figure | null {
  const rules = state.type.runUp?.magneto;
  const engine = engineOf(state, n);
  if (!rules || !engine) return null;
  const limits = { maxDrop: rules.maxDrop.value, maxDifference: rules.maxDifference.value };
  const judged = magnetoCheck(
    {
      both: value(engine, "magnetoBoth"),
      left: value(engine, "magnetoLeft"),
      right: value(engine, "magnetoRight"),
    },
    limits,
  );
  return {
    id: `magneto:${n}`,
    words: "magneto",
    value: judged.ok ? Math.max(judged.value.leftDrop, judged.value.rightDrop) : null,
    unit: "rpm",
    verdict: !judged.ok ? "unknown" : judged.value.faults.length > 0 ? "bad" : "good",
    inputs: [
      ...items(engine, "magnetoBoth", "magnetoLeft", "magnetoRight"),
      ofType("most on either side", rules.maxDrop),
      ofType("most between the sides", rules.maxDifference),
    ],
    equation: "drop = both - one; difference = |left drop - right drop|; no drop is a fault",
    source: "AMT handbook, powerplant, on the magneto check",
    ...cautions(
      judged.ok &&
        judged.value.faults
          .map((f) =>
            outcomesOf(say).runUpFault({ engine: n, of: { check: "magneto" }, what: f }, state.type),
          )
          .join(". "),
    ),
  };
}

export function featherFigure(state: SessionState, n: number): Figure | null {
  const rules = state.type.runUp?.feather;
  const engine = engineOf(state, n);
  if (!rules || !engine) return null;
  const judged = featherCheck(
    {
      before: value(engine, "featherBefore"),
      lowest: value(engine, "featherLowest"),
      after: value(engine, "featherAfter"),
    },
    { maxDrop: rules.maxDrop.value, recovery: rules.recovery.value },
  );
  return {
    id: `feather:${n}`,
    words: "feather",
    value: judged.ok ? judged.value.drop : null,
    unit: "rpm",
    verdict: !judged.ok ? "unknown" : judged.value.faults.length > 0 ? "bad" : "good",
    inputs: [
      ...items(engine, "featherBefore", "featherLowest", "featherAfter"),
      ofType("most", rules.maxDrop),
      ofType("comes back within", rules.recovery),
    ],
    equation: "drop = before - lowest",
    source: "airline operations 1946, 3034",
    ...cautions(
      judged.ok &&
        judged.value.faults
          .map((f) =>
            outcomesOf(say).runUpFault({ engine: n, of: { check: "feather" }, what: f }, state.type),
          )
          .join(". "),
    ),
  };
}

/** Returns the spread of the engines' manifold pressures at one speed. */
export function manifoldFigure(state: SessionState): Figure | null {
  const rules = state.type.runUp?.manifold;
  const turning = state.engines.filter((e) => isTurning(e.life));
  if (!rules || turning.length < 2) return null;
  const readings = turning.map((e) => ({
    engine: e.n,
    manifoldInHg: value(e, "powerManifold"),
    rpm: value(e, "powerRpm"),
  }));
  const complete = readings.every((r) => Number.isFinite(r.manifoldInHg) && Number.isFinite(r.rpm));
  const judged = complete ? pressureSpread(readings, rules.spread, rules.rpmTolerance.value) : null;
  return {
    id: "manifold",
    words: "manifold",
    value: judged?.ok ? judged.value.spread : null,
    unit: "inHg",
    verdict: !judged?.ok ? "unknown" : judged.value.within ? "good" : "bad",
    inputs: [
      ...turning.flatMap((e) => items(e, "powerManifold", "powerRpm")),
      ofType("most apart", rules.spread),
      ofType("one speed within", rules.rpmTolerance),
    ],
    equation: "highest - lowest",
    source: "TM 1-1500-204-23-1 table 7-2 step 10",
    ...cautions(
      !complete && "Not every engine's pressure and speed are read.",
      judged && !judged.ok && judged.why,
      judged?.ok &&
        !judged.value.within &&
        `Number ${judged.value.highest} highest, number ${judged.value.lowest} lowest.`,
    ),
  };
}

/** Returns whether the aircraft is ready for release, with each failing item named. */
export function releaseFigure(state: SessionState): Figure | null {
  const verdict = releaseVerdict(state);
  if (!verdict) return null;
  const faults = verdict.faults.map((f) => {
    return {
      name: outcomesOf(say).runUpFault(runUpFault(f), state.type),
      value: null,
      unit: null,
      source: "the run-up",
      at: null,
    };
  });
  const notes = verdict.notes.map((n) => ({
    name: `${state.type.gauges.find((g) => g.id === n.gauge)?.name ?? n.gauge}${n.engine === null ? "" : `, number ${n.engine}`}`,
    value: n.band,
    unit: null,
    source: "no fault, and to be told",
    at: null,
  }));
  return {
    id: "release",
    words: verdict.ready ? "release.ready" : "release",
    value: verdict.faults.length,
    unit: "count",
    verdict: verdict.ready ? "good" : "bad",
    inputs: [...faults, ...notes],
    equation: "ready when every gauge of the run-up is read and in range and every check passes",
    source: "the type's run-up rules",
  };
}
