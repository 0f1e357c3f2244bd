import { gravityNow } from "../checks/gravity.ts";
import type { SessionState } from "../session/state.ts";
import type { BatteryData } from "../types/electrical.ts";
import { cautions, type Figure, type FigureInput, ofTypeData, read } from "./figure.ts";

const RULE_WORDS = {
  fourPointsPer10F: "0.004 for each 10 degF",
  onePointPer3F: "0.001 for each 3 degF",
} as const;

/**
 * Returns a figure for each battery whose hydrometer was read: its gravity at 80 °F against the check's range, and the
 * charge that follows from it.
 */
export function gravityFigures(state: SessionState): Figure[] {
  return (state.type.electrical?.batteries ?? []).flatMap((b) => {
    const figure = gravityFigure(state, b);
    return figure ? [figure] : [];
  });
}

function gravityFigure(state: SessionState, battery: BatteryData): Figure | null {
  const { gravity, cell } = battery;
  if (!gravity || cell.chemistry !== "leadAcid") return null;
  const base = {
    id: `gravity:${battery.id}`,
    words: "gravity",
    unit: "count" as const,
    inputs: [
      checked(state, `${battery.name}, gravity read`, gravity.check),
      checked(state, `${battery.name}, electrolyte`, gravity.temperature),
      ofTypeData("added above 80 degF, taken off below", RULE_WORDS[gravity.rule], gravity.source),
      ofTypeData("gravity charged", cell.full, cell.source),
      ofTypeData("gravity discharged", cell.empty, cell.source),
    ],
    equation: "at 80 degF: g + rule (t - 80); charge = (g - discharged) / (charged - discharged)",
    source:
      "hydrometer correction as service manuals and FAA-H-8083-31A ch. 9 print it; charge straight between",
  };
  const now = gravityNow(state, battery);
  if (!now?.ok)
    return {
      ...base,
      detail: battery.name,
      value: null,
      verdict: "unknown",
      ...cautions(now ? now.why : "The hydrometer has not been read."),
    };
  const { at80F, charge } = now.value;
  const percent = Math.round(charge * 100);
  return {
    ...base,
    detail: `${battery.name}: ${percent} % charged`,
    value: Number(at80F.toFixed(4)),
    verdict: state.checks[gravity.check]?.good ? "good" : "bad",
  };
}

function checked(state: SessionState, name: string, check: string): FigureInput {
  const record = state.checks[check];
  return read(name, record?.reading ? { ...record.reading, at: record.at, name: record.name } : null);
}
