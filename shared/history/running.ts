import type { Engine } from "../engine/life.ts";
import { featherCheck } from "../models/runUp/feather.ts";
import { magnetoCheck } from "../models/runUp/magneto.ts";
import { gaugesShort } from "../models/warmUp/short.ts";
import type { Attempt } from "../paper/attempt.ts";
import { gateRules, warmUpSeries } from "../runUp/gates.ts";
import type { AircraftType } from "../types/schema.ts";
import type { StartRow } from "./row.ts";

type Figures = StartRow["figures"];

/** Returns how long the starter was engaged and how long oil pressure took, as far as they are known. */
export function attemptFigures({ starterS, caught, oilFirst, oilNormal }: Attempt): Figures {
  const after = (at: number | null) =>
    at === null || caught === null ? null : ({ value: (at - caught) / 1000, unit: "s" } as const);
  const [first, normal] = [after(oilFirst), after(oilNormal)];
  return {
    ...(starterS === null ? {} : { starterS: { value: starterS, unit: "s" } }),
    ...(first ? { oilFirstS: first } : {}),
    ...(normal ? { oilNormalS: normal } : {}),
  };
}

/** Returns the lowest volts read during the engagement that began at `at`, beside those worked out. */
export function voltFigures(engine: Engine, at: number): Figures {
  const use = engine.starter.findLast(({ on }) => on === at);
  if (!use?.lowest) return {};
  const { value } = use.lowest;
  const { expected } = use;
  return {
    voltsSeen: { value, unit: "V" },
    ...(expected === undefined ? {} : { voltsDifference: { value: value - expected, unit: "V" } }),
  };
}

/** Returns the minutes from the catch to now if the engine has reached each of its gates now; nothing before. */
export function warmUpFigures(type: AircraftType, engine: Engine, caughtAt: number, now: number): Figures {
  if (type.warmUp.length === 0 || engine.warmUp === undefined) return {};
  const short = gaugesShort(gateRules(type.warmUp), warmUpSeries(engine, type.warmUp, caughtAt));
  if (!short.ok || short.value.length > 0) return {};
  return { warmUpMin: { value: (now - caughtAt) / 60_000, unit: "min" } };
}

/** Returns what the engine's run-up showed, as far as it is read. */
export function runUpFigures({ runUp: rules }: AircraftType, { runUp = {} }: Engine): Figures {
  if (!rules) return {};
  const value = (item: keyof typeof runUp) => runUp[item]?.value ?? Number.NaN;
  const magneto = magnetoCheck(
    { both: value("magnetoBoth"), left: value("magnetoLeft"), right: value("magnetoRight") },
    { maxDrop: rules.magneto.maxDrop.value, maxDifference: rules.magneto.maxDifference.value },
  );
  const feather =
    rules.feather &&
    featherCheck(
      { before: value("featherBefore"), lowest: value("featherLowest"), after: value("featherAfter") },
      { maxDrop: rules.feather.maxDrop.value, recovery: rules.feather.recovery.value },
    );
  const boost = runUp.powerManifold;
  return {
    ...(magneto.ok
      ? {
          magnetoLeft: { value: magneto.value.leftDrop, unit: "rpm" },
          magnetoRight: { value: magneto.value.rightDrop, unit: "rpm" },
        }
      : {}),
    ...(feather?.ok ? { featherDrop: { value: feather.value.drop, unit: "rpm" } } : {}),
    ...(boost ? { boost: { value: boost.value, unit: boost.unit } } : {}),
  };
}
