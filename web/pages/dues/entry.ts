import type { Inspection } from "../../../shared/dues/inspection.ts";

/** An inspection as it is typed. */
export interface InspectionText {
  aircraft: string;
  engine: string;
  name: string;
  source: string;
  by: "days" | "starts" | "engine" | "propeller";
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
    ...typedEvery(every),
    ahead: String(every.ahead),
    day: last?.day ?? "",
    hours: String(last?.hours ?? ""),
  };
}

function typedEvery(every: Inspection["every"]): Pick<InspectionText, "by" | "every"> {
  switch (every.by) {
    case "days":
      return { by: "days", every: String(every.days) };
    case "starts":
      return { by: "starts", every: String(every.starts) };
    case "hours":
      return { by: every.part, every: String(every.hours) };
  }
}

/** Returns the interval that is typed. */
function everyOf(by: InspectionText["by"], every: number, ahead: number): Inspection["every"] {
  switch (by) {
    case "days":
      return { by, days: every, ahead };
    case "starts":
      return { by, starts: every, ahead };
    case "engine":
    case "propeller":
      return { by: "hours", part: by, hours: every, ahead };
  }
}

/** Returns true for an interval in hours of a part, which needs the part's hours. */
export const isByHours = (by: InspectionText["by"]): boolean => by === "engine" || by === "propeller";

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
  const byHours = isByHours(text.by);
  if (!text.aircraft || !text.name.trim() || !text.source.trim() || !every || ahead === null) return null;
  if (byHours && (engine === null || (text.day !== "" && hours === null))) return null;
  return {
    ...{ id, retired, aircraft: text.aircraft, engine, name: text.name.trim(), source: text.source.trim() },
    every: everyOf(text.by, every, ahead),
    last: text.day === "" ? null : { day: text.day, hours: byHours ? hours : null },
  };
}
