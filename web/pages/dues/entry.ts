import type { Inspection } from "../../../shared/dues/inspection.ts";

/** An inspection as it is typed. */
export interface InspectionText {
  aircraft: string;
  engine: string;
  name: string;
  source: string;
  by: "days" | "engine" | "propeller";
  every: string;
  ahead: string;
  day: string;
  hours: string;
}

export const NOTHING_TYPED: InspectionText = {
  ...{ aircraft: "", engine: "", name: "", source: "", by: "days" },
  ...{ every: "", ahead: "", day: "", hours: "" },
};

export function textOfInspection({ every, last, ...entry }: Inspection): InspectionText {
  return {
    ...{ aircraft: entry.aircraft, name: entry.name, source: entry.source },
    engine: String(entry.engine ?? ""),
    by: every.by === "days" ? "days" : every.part,
    every: String(every.by === "days" ? every.days : every.hours),
    ahead: String(every.ahead),
    day: last?.day ?? "",
    hours: String(last?.hours ?? ""),
  };
}

/** Returns the number that a text is; null when it is none or negative. A comma may stand for the point. */
export function figureOf(text: string): number | null {
  const figure = text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", "."));
  return Number.isFinite(figure) && figure >= 0 ? figure : null;
}

/** Returns the entry; null while something that it needs is not typed. */
export function entryOf(
  text: InspectionText,
  { id, retired }: Pick<Inspection, "id" | "retired">,
): Inspection | null {
  const [every, ahead, hours] = [figureOf(text.every), figureOf(text.ahead), figureOf(text.hours)];
  const engine = text.engine.trim() === "" ? null : figureOf(text.engine);
  const byDays = text.by === "days";
  if (!text.aircraft || !text.name.trim() || !text.source.trim() || !every || ahead === null) return null;
  if (!byDays && (engine === null || (text.day !== "" && hours === null))) return null;
  return {
    ...{ id, retired, aircraft: text.aircraft, engine, name: text.name.trim(), source: text.source.trim() },
    every:
      text.by === "days"
        ? { by: "days", days: every, ahead }
        : { by: "hours", part: text.by, hours: every, ahead },
    last: text.day === "" ? null : { day: text.day, hours: byDays ? null : hours },
  };
}
