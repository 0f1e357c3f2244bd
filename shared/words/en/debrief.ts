/** Lines of a rehearsal's debrief. */
export const debrief = {
  title: "What they did",
  lead: "Told from the record alone, by fixed rules. It is no mark.",
  retold: (seq: number, from: string) =>
    `This rehearsal was taken back. Its events 1 to ${seq} are retold from ${from}, where they were done; no line here is about them.`,
  none: "Nothing went wrong, and nothing was done that had to be told.",
  answered: (fault: string, seconds: string, by: string) => `${fault}: answered after ${seconds} s by ${by}`,
  notAnswered: (fault: string) => `${fault}: nobody answered it`,
  unnecessary: (what: string, by: string) => `${what} by ${by}: nothing had gone wrong that asks for it`,
  wrongNumber: (by: string) => `Wrong number read back by ${by}`,
  refused: (why: string, times: number) => `Refused ${times} ×: ${why}`,
  drill: (title: string, done: number, left: number, missed: number) =>
    `${title}: ${done} steps done, ${left} said not to apply, ${missed} not marked`,
  outOfOrder: "not in the order of the card",
  limit: (what: string, n: number, found: string, allowed: string) =>
    `Limit passed, number ${n}: ${what} ${found} s, limit ${allowed} s`,
  suffered: (what: string, n: number, found: string) => `Number ${n}: ${what} ${found}`,
  within: (allowed: string) => `limit ${allowed}`,
  touches: (post: string, times: number) => `Touches at ${post}: ${times}`,
  compared: "Beside the last runs",
  comparedLead:
    "The same script and the same type, at the same post. Every line is the whole crew's, but the touches. No line is a mark.",
  comparedOf: (name: string, post: string) => `${name}, ${post}`,
  noEarlier: "No earlier run of this script at this post.",
  nobodyCompared: "Nobody whose earlier runs you may read took part.",
  notCompared: "This rehearsal was taken back to a moment, so it is compared with no whole run.",
  measure: "Measure",
  thisRun: "This run",
  answerOf: (fault: string) => `Answer to ${fault}`,
  didNotHappen: "–",
  noAnswer: "none",
  measures: {
    unnecessary: "Stops without a cause",
    wrongNumbers: "Wrong numbers read back",
    refused: "Refused",
    stepsMissed: "Steps of drills not marked",
    limits: "Limits passed",
    alerts: "Alerts of something unsafe",
    starterK: "Hottest starter",
    withoutOilS: "Longest without oil pressure",
    touches: "Touches at this post",
  },
  limits: {
    starterTime: "starter held",
    oilFirst: "first oil pressure after",
    oilNormal: "normal oil pressure after",
  },
};
export type DebriefWords = typeof debrief;
