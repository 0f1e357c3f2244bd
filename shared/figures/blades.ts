import { bladesCounted } from "../conditions/propellers.ts";
import { failedSinceRun } from "../engine/attempts.ts";
import { bladesForEveryCylinder } from "../models/bladeCount.ts";
import { bladesDueAt } from "../propeller/bladesDue.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { cautions, type Figure, ofTypeData } from "./figure.ts";
import { airInput } from "./temperature.ts";

/** Returns the blades due at this engine before its start, and whether they are counted. */
export function bladesFigure(state: SessionState, engine: number, now: number): Figure | null {
  const e = engineOf(state, engine);
  if (!e) return null;
  const rules = state.type.bladeCount;
  const due = bladesDueAt(state, e, now);
  const counted = bladesCounted.find(state, engine, now);
  const least = bladesForEveryCylinder(state.type.propeller);
  const failed = rules.afterFailed && failedSinceRun(e) ? [rules.afterFailed.source] : [];
  const sources = [
    ...("cases" in rules ? rules.cases.map((c) => c.source) : [rules.blades.source]),
    ...failed,
  ];
  const value = !due.ok ? null : due.value.due ? due.value.blades : 0;
  const verdict = !due.ok
    ? "unknown"
    : counted.is === "yes"
      ? "good"
      : counted.is === "no"
        ? "bad"
        : "caution";
  return {
    id: `blades:${engine}`,
    words: value === 0 ? "blades.none" : "blades",
    value,
    unit: "count",
    verdict,
    inputs: [
      {
        name: "stood",
        value: e.lastRanAt === null ? null : (now - e.lastRanAt) / 3_600_000,
        unit: "h",
        source: e.lastRanAt === null ? "nobody knows: it counts as long" : "last ran",
        at: e.lastRanAt,
      },
      airInput(state),
      {
        name: "counted",
        value: e.blades?.blades ?? null,
        unit: "count",
        source: e.blades ? `counted by ${e.blades.by.name}` : "nobody has counted",
        at: e.blades?.by.at ?? null,
      },
      ...(due.ok && due.value.due
        ? [ofTypeData("how", due.value.method, sources[0] ?? { basis: "invented", text: "" })]
        : []),
      ...sources.map((s, i) => ofTypeData(`rule ${i + 1}`, "see source", s)),
      {
        name: "blades for every cylinder once",
        value: least.ok ? least.value : null,
        unit: "count",
        source: "2 crankshaft revolutions x gear ratio x blades",
        at: null,
      },
    ],
    equation: "of the cases that apply by time stood and air, the one that asks most",
    source: "the type's rule; FAA-H-8083-30 ch. 11 on hydraulic lock",
    ...cautions(
      due.ok &&
        due.value.due &&
        !due.value.everyCylinder &&
        "So few do not take every cylinder through one compression.",
      "A count finds a lock by feel and never rules one out: on resistance stop.",
      !due.ok && due.why,
    ),
  };
}
