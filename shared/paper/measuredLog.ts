import { NO_STARTS, startsAfter } from "../history/project.ts";
import { MEASURED_FIGURES, type MeasuredFigure, type StartRow } from "../history/row.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { Unit } from "../protocol/quantity.ts";
import type { Language } from "../words/language.ts";
import { measuredWords } from "../words/measured.ts";
import { workedOut } from "../words/quantity.ts";

/** One figure of a start: as people said it, as an instrument measured it, and how the two compare. */
interface MeasuredCell {
  /** Null where nobody said it. */
  said: string | null;
  /** Null where no instrument measured it. */
  measured: string | null;
  /** Null where one of the two is missing. */
  verdict: string | null;
  differs: boolean;
}

export interface MeasuredRow {
  n: number;
  attempt: number;
  cells: Record<MeasuredFigure, MeasuredCell>;
}

const FIGURES: Readonly<
  Record<MeasuredFigure, { said: keyof StartRow["figures"]; measured: keyof StartRow["figures"]; unit: Unit }>
> = {
  starter: { said: "starterS", measured: "starterMeasuredS", unit: "s" },
  volts: { said: "voltsSeen", measured: "voltsMeasured", unit: "V" },
  oilFirst: { said: "oilFirstS", measured: "oilFirstMeasuredS", unit: "s" },
};

/** Returns a row for each start of which an instrument measured something, in order of time. */
export function measuredLog(events: readonly SessionEvent[], language: Language): MeasuredRow[] {
  // Only then is the whole record worked through.
  if (!events.some((e) => e.fact.type === "instrumentsRead")) return [];
  return startsAfter(NO_STARTS, events).rows.flatMap((row) => {
    if (MEASURED_FIGURES.every((f) => row.figures[FIGURES[f].measured] === undefined)) return [];
    const cells = Object.fromEntries(MEASURED_FIGURES.map((f) => [f, cellOf(row, f, language)]));
    return [{ n: row.n, attempt: row.attempt, cells: cells as MeasuredRow["cells"] }];
  });
}

function cellOf({ figures, differs }: StartRow, figure: MeasuredFigure, language: Language): MeasuredCell {
  const words = measuredWords(language);
  const { unit, ...ids } = FIGURES[figure];
  const figureOf = (id: keyof StartRow["figures"]) => {
    const read = figures[id];
    return read ? workedOut(read.value, read.unit) : null;
  };
  const [said, measured] = [figureOf(ids.said), figureOf(ids.measured)];
  const apart = differs.find((d) => d.figure === figure);
  if (apart) {
    const by = workedOut(Math.abs(apart.said - apart.measured), unit);
    return { said, measured, verdict: words.differ(by, workedOut(apart.within, unit)), differs: true };
  }
  const verdict = said !== null && measured !== null ? words.agree : null;
  return { said, measured, verdict, differs: false };
}
