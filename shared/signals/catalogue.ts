import { otherPosts, POSTS, type Post } from "../protocol/posts.ts";
import type { Answer, SignalKind } from "../protocol/signals.ts";
import type { AircraftType } from "../types/schema.ts";

/** Where a signal has a standard hand form. `text` cites it; the figure is drawn from `figure`. */
export interface StandardForm {
  figure: string;
  text: string;
}

/** What one kind of signal is: who sends it, to whom, which answer is due, and what happens when none comes. */
export interface SignalRule {
  /** `anyone` includes observers: stops and reports of danger. */
  from: readonly Post[] | "anyone";
  to(from: Post | null): Post[];
  engine: "required" | "optional" | "none";
  /** Posts whose answer is due; empty for a report that needs none. */
  due(from: Post | null): Post[];
  answers: readonly Answer[];
  /** Seconds to the reminder and to the supervisor's alert, from the type's timing. */
  remind: keyof AircraftType["timing"] | null;
  escalate: keyof AircraftType["timing"] | null;
  /** May a person who saw it given by hand record it for its giver? Never for a clearance. */
  witnessable: boolean;
  /** A stop: taken from anyone at any time while the session lives. */
  stop: boolean;
  standard: StandardForm | null;
}

const SI = "UK SI 2007/3468 Sch 8 r.63";
const ANNEX = "ICAO Annex 2 App 1";
const all = (from: Post | null) => otherPosts(from);
const none = () => [] as Post[];
/** A cut goes to the cockpit even from the cockpit: it alone can report it done. */
const allAndCockpit = (from: Post | null) => POSTS.filter((p) => p !== from || p === "cockpit");
const only =
  (...posts: Post[]) =>
  (from: Post | null) =>
    posts.filter((p) => p !== from);

function rule(over: Partial<SignalRule> & Pick<SignalRule, "from">): SignalRule {
  return {
    to: all,
    engine: "none",
    due: none,
    answers: ["received"],
    remind: null,
    escalate: null,
    witnessable: false,
    stop: false,
    standard: null,
    ...over,
  };
}

const stop = (over: Partial<SignalRule>) =>
  rule({
    from: "anyone",
    due: all,
    remind: "stop",
    escalate: "stopEscalate",
    witnessable: true,
    stop: true,
    ...over,
  });

/** A service the ground does on the crew's authority: asked by either side, authorised by the cockpit. */
const service = (standard: StandardForm | null) =>
  rule({
    from: ["cockpit", "groundPower", "supervisor"],
    to: all,
    due: (from) => (from === "cockpit" ? ["groundPower"] : ["cockpit"]),
    answers: ["authorise", "willComply", "received", "unable"],
    remind: "service",
    escalate: "serviceEscalate",
    witnessable: true,
    standard,
  });

const serviceReport = (standard: StandardForm | null) =>
  rule({ from: ["groundPower"], due: only("cockpit"), remind: "service", witnessable: true, standard });

export const CATALOGUE: Readonly<Record<SignalKind, SignalRule>> = {
  readyToStart: rule({
    from: ["cockpit"],
    engine: "required",
    due: only("supervisor"),
    answers: ["received", "unable"],
    remind: "request",
    witnessable: true,
    standard: { figure: "readyToStart", text: `${SI}(5): fingers of one hand show the engine's number` },
  }),
  clearToStart: rule({
    from: ["supervisor"],
    engine: "required",
    due: only("cockpit"),
    answers: ["readBack", "unable"],
    remind: "readBack",
    standard: { figure: "startEngine", text: `${ANNEX} 5.1 item 9, start engine` },
  }),
  revokeClearance: rule({ from: ["supervisor", "fireGuard", "cockpit"], engine: "required" }),
  cranking: rule({ from: ["cockpit"], engine: "required" }),
  caught: rule({ from: ["cockpit"], engine: "required" }),
  started: rule({ from: ["cockpit"], engine: "required" }),
  startAbandoned: rule({ from: ["cockpit"], engine: "required" }),
  shutDown: rule({ from: ["cockpit"], engine: "required" }),
  turning: stop({ engine: "required" }),
  guardInPlace: rule({ from: ["fireGuard"], engine: "required", witnessable: true }),
  guardAway: rule({ from: ["fireGuard"] }),
  arcClear: rule({
    from: ["fireGuard"],
    engine: "required",
    witnessable: true,
    standard: { figure: "pathClear", text: `${ANNEX} 5.1 item 1, path unobstructed, used here for the arc` },
  }),
  arcNotClear: rule({
    from: ["fireGuard", "groundPower", "supervisor"],
    engine: "required",
    witnessable: true,
  }),
  hold: stop({
    engine: "optional",
    standard: { figure: "holdStandBy", text: `${ANNEX} 5.1, hold position / stand by` },
  }),
  release: rule({ from: "anyone" }),
  cut: stop({
    engine: "required",
    to: allAndCockpit,
    due: allAndCockpit,
    answers: ["received", "done", "unable"],
    standard: { figure: "cutEngines", text: `${ANNEX} 5.1 item 10, cut engines` },
  }),
  cutAll: stop({
    to: allAndCockpit,
    due: allAndCockpit,
    answers: ["received", "done", "unable"],
    standard: { figure: "cutEngines", text: `${ANNEX} 5.1 item 10, cut engines` },
  }),
  resetCut: rule({ from: ["supervisor", "cockpit"] }),
  fire: stop({
    engine: "optional",
    answers: ["received", "willComply", "unable"],
    standard: { figure: "fire", text: `${ANNEX} 5.1, fire` },
  }),
  fireOut: rule({ from: ["fireGuard", "supervisor", "cockpit"] }),
  connectPower: service({ figure: "connectPower", text: `${ANNEX} 5.3, connect ground power (from memory)` }),
  powerConnected: serviceReport(null),
  disconnectPower: service({
    figure: "disconnectPower",
    text: `${ANNEX} 5.3, disconnect ground power, not before the crew authorises (from memory)`,
  }),
  powerDisconnected: serviceReport(null),
  insertChocks: service({ figure: "insertChocks", text: `${SI}(3), insert chocks` }),
  chocksIn: serviceReport({ figure: "chocksInserted", text: `${ANNEX} 5.1 item 8, chocks inserted` }),
  removeChocks: service({ figure: "removeChocks", text: `${SI}(4), remove chocks` }),
  chocksOut: serviceReport({ figure: "chocksRemoved", text: `${ANNEX} 5.1 item 8, chocks removed` }),
  handlePropeller: {
    ...service(null),
    from: ["fireGuard", "groundPower", "cockpit"],
    engine: "required",
    due: (from) => (from === "cockpit" ? [] : ["cockpit"]),
  },
  propellerFree: rule({ from: ["fireGuard", "groundPower"], engine: "required", witnessable: true }),
  brakesSet: rule({
    from: ["cockpit"],
    witnessable: false,
    standard: { figure: "brakesEngaged", text: `${SI}(1), brakes engaged` },
  }),
  brakesReleased: rule({
    from: ["cockpit"],
    standard: { figure: "brakesReleased", text: `${SI}(2), brakes released` },
  }),
  allClear: rule({
    from: ["supervisor"],
    due: only("cockpit"),
    answers: ["received", "unable"],
    remind: "service",
    standard: { figure: "allClear", text: `${ANNEX} 5.1 item 15, affirmative / all clear` },
  }),
  negative: rule({
    from: POSTS,
    engine: "optional",
    standard: { figure: "negative", text: `${ANNEX} 5.3, negative (from memory)` },
  }),
};
