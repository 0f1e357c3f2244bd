import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");
const starts = (n: number) => `${n} ${plural(n, { one: "start", other: "starts" })}`;

/** Lives of equipment, and the rate of an aircraft's defects. */
export const lives = {
  title: "How long equipment lasts, in starts",
  of: { starter: "Starters", cart: "Carts", extinguisher: "Extinguishers" },
  table: "How long equipment lasts (CSV)",
  trendTable: "Defects over time (CSV)",
  failsAs: {
    starter:
      "A starter counts as failed when its engine starts with another one afterwards. The register does not say why it was changed.",
    cart: "A cart has failed when the register takes it out of service as broken.",
    extinguisher:
      "An extinguisher has failed when the register takes it out of service as broken. One that was used up has not.",
  },
  none: "None of them has a start on record.",
  counted: (lives: number, failures: number) =>
    `${lives} ${plural(lives, { one: "life", other: "lives" })} counted, ${failures} ended by a failure.`,
  few: (least: number) =>
    `Too few failures: a law and its interval need ${least}. Only what was counted is drawn.`,
  noLaw: "These lives determine no law. Only what was counted is drawn.",
  scale: (value: string, low: string, high: string) =>
    `By the Weibull law 63 % have failed by ${value} starts (95 % interval ${low} to ${high}).`,
  shape: (value: string, low: string, high: string) => `Its shape is ${value} (${low} to ${high}).`,
  wears: {
    more: "Above 1 with the whole interval: failures come more often with age.",
    less: "Below 1 with the whole interval: failures come less often with age.",
    unknown: "The interval holds 1: whether failures come more often with age cannot be told.",
  },
  chartIs: {
    counted: "Line in steps: counted (Kaplan and Meier).",
    fitted: "Line in steps: counted (Kaplan and Meier). Smooth line: Weibull law, shaded: its 95 % interval.",
  },
  inUse: "100 %",
  nobody: "0 %",
  noStarts: "0",
  mostStarts: starts,
  lifeTable: (of: string) => `Table: ${of}`,
  item: "Piece",
  startsAs: "Starts",
  ended: "Ended",
  failed: "failed",
  watched: "in use, or left for another reason",
  more: (most: number) =>
    `Only the newest ${most} sessions are counted. Lives that began before are longer than they look.`,
  defects: "Do its defects become rarer?",
  defectsAre: (n: number, from: string) =>
    `${n} ${plural(n, { one: "defect", other: "defects" })} written since the first start on record, ${from}.`,
  unwatched: "No start is on record yet, so nothing can be said.",
  fewDefects: (least: number) => `Too few defects: a trend needs ${least}. Only what was counted is drawn.`,
  trendIs: {
    rarer: "Defects become rarer.",
    moreFrequent: "Defects become more frequent.",
    none: "No trend can be told from chance.",
  },
  exponent: (value: string, low: string, high: string) =>
    `Power law (Crow-AMSAA): exponent ${value}, 95 % interval ${low} to ${high}; below 1 is rarer.`,
  laplace: (score: string) => `Laplace's test: ${score}; beyond 1.96 on either side is a trend.`,
  between: (days: string) => `By this law a defect comes every ${days} days now.`,
  defectChartIs: {
    counted: "Line in steps: defects counted.",
    fitted: "Line in steps: defects counted. Smooth line: power law.",
  },
};

export type LivesWords = typeof lives;
