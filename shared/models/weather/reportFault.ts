export const REPORT_PARTS = ["wind", "gust", "direction", "temperature", "dewPoint", "qnh"] as const;
export type ReportPart = (typeof REPORT_PARTS)[number];

/** A part that a report can state twice: its figures, or its time. */
export type StatedPart = ReportPart | "observed";

/** Units in which a report's figures are compared; a direction has none. */
const PART_UNITS = {
  wind: "kt",
  gust: "kt",
  direction: null,
  temperature: "degC",
  dewPoint: "degC",
  qnh: "hPa",
} as const satisfies Record<ReportPart, string | null>;

/** A reason why a report is not used. Ages in milliseconds; a figure in the unit of its part. */
export type ReportFault =
  | { is: "unreadable" }
  | { is: "old"; age: number; most: number }
  | { is: "impossible"; part: ReportPart; value: number }
  /** It states this part twice and differently: two reports may have been pasted as one. */
  | { is: "twice"; part: StatedPart };

export const partUnit = (part: ReportPart) => PART_UNITS[part];

/** Returns a fault in the form in which a refusal carries it: its parts joined by colons. */
export function faultCode(fault: ReportFault): string {
  switch (fault.is) {
    case "unreadable":
      return fault.is;
    case "old":
      return `old:${fault.age}:${fault.most}`;
    case "impossible":
      return `impossible:${fault.part}:${fault.value}`;
    case "twice":
      return `twice:${fault.part}`;
  }
}

/** Returns the fault in a refusal; an unknown code becomes a report that cannot be read. */
export function faultOf(code: string): ReportFault {
  const [is, a = "", b = ""] = code.split(":");
  const part = REPORT_PARTS.find((p) => p === a);
  if (is === "old") return { is, age: Number(a), most: Number(b) };
  if (is === "impossible" && part) return { is, part, value: Number(b) };
  if (is === "twice" && (part || a === "observed")) return { is, part: part ?? "observed" };
  return { is: "unreadable" };
}
