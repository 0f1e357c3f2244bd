/** Measurements of a start by instruments, beside what people said. */
export const measured = {
  title: "Measured by instruments",
  lead: "Each figure as people said it, then as an instrument measured it.",
  engine: "Number",
  attempt: "Try",
  figures: { starter: "Starter", volts: "Lowest volts", oilFirst: "First oil pressure" },
  said: "said",
  measured: "measured",
  differ: (apart: string, within: string) => `${apart} apart, more than ${within}`,
  agree: "agree",
};

export type MeasuredWords = typeof measured;
