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
  notTested: "test signal not given",
};

export const session = {
  fetching: "Loading the session…",
  until: (link: string) => `${link}. Until it is here, use hand signals and local procedures.`,
};
