/** The supervisor's panel. */
export const supervisor = {
  board: "All sessions",
  missing: "Needed before the next stage",
  before: (stage: string) => `Needed before ${stage} ends`,
  rise: (n: string, gauge: string, by: string) => `Number ${n}: ${gauge} up by ${by}`,
  least: (n: string, gauge: string, least: string) => `Number ${n}: ${gauge} at least ${least}`,
  standsOn: (n: number) => `Number ${n}: what its clearance needs`,
  wouldStandOn: (n: number) => `Number ${n} is next: what its clearance needs`,
  wouldStandAfter: (n: number, after: number) =>
    `After number ${after} comes number ${n}: what its clearance needs`,
  by: (name: string, time: string) => `${name}, ${time} ago`,
  owners: (posts: string) => `for ${posts}`,
  askAside: "Ask to set it aside",
  aside: (condition: string) => `Set aside: ${condition}`,
  asideWhat: "A second person on another device must agree and give a reason. The record keeps both.",
  marks: { yes: "met", no: "not met", stale: "old", unknown: "not said", overridden: "SET ASIDE" },
  answer: "Answer",
  condition: "Condition",
  who: "Who and when",
  setAside: "Set aside…",
};
