import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");
const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];

/** The state of the connection, and advice for when it is lost. */
export const connection = {
  never: "never heard",
  heard: (time: string) => `last heard ${time} ago`,
  connecting: "Connecting",
  linked: "Linked",
  notRecording: "Nothing can be recorded",
  notRecordingAdvice: "Nothing can be recorded. Hold, and use hand signals.",
  stopsStillHeard: "A hold, cut or fire still reaches the other panels.",
  silent: (heard: string) => `Silent, ${heard}`,
  offline: (heard: string) => `Offline, ${heard}`,
  signedOut: "Signed out",
  tooOld: "This panel is too old: reload",
  waiting: (n: number) =>
    `${NUMBERS[n] ?? n} ${plural(n, { one: "signal waiting", other: "signals waiting" })}`,
  stale: (link: string, waiting: string | null) =>
    `${link}${waiting === null ? "" : `; ${waiting}`}. Hold. What you see may be old: use hand signals. Hold, cut and fire are kept and go out when the server answers.`,
  postUnknown: "not known",
  postLinked: "linked",
  postNot: "not connected",
  postSilent: (time: string) => `silent ${time}`,
  nobody: "nobody",
  offered: "offered to you",
  free: "touch to take",
  over: "session over",
};

export const session = {
  fetching: "Loading the session…",
  until: (link: string) => `${link}. Until it is here, use hand signals and local procedures.`,
  sheet: (aircraft: string) => `${aircraft}: posts and session`,
  joinTitle: "Join on another device",
  joinCode: (code: string) => `Join with code ${code}`,
  drawing: "Drawing the code…",
  record: "Record",
  printBrief: "Print brief",
  printRecord: "Print record",
  abandon: "Abandon session",
  abandonTitle: "Abandon this session",
  abandonWhy: "Why is it abandoned?",
  abandonDo: "Abandon",
  abandonReasons: { weather: "Weather", defect: "Defect found", crew: "Crew not available" },
};

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

export const senses = {
  notTested: "test signal not given",
  later: "Later",
  region: "Test signal",
  played: "Three tones. Did you hear or feel them?",
  ask: "Can you hear or feel this device in the noise?",
  vibrates: "It vibrates too, if it can.",
  noVibration: "This device cannot vibrate.",
  louder: "If not: volume up, sound not muted, then again.",
  again: "Test again",
  test: "Test signal",
  reached: "I hear or feel it",
  notReached: "I do not",
  battery: (percent: number) => `Battery ${percent} %: charge this device or move the post to another.`,
  notLasting: "Unsent signals are not kept on this device: do not close or reload this tab.",
  dark: "The screen may go dark: this device does not keep it lit.",
  noTone: "You hear no tones here: watch the screen.",
  soundOff: "Sound is off until you touch the screen.",
};
