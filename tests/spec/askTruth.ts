import type { Ask } from "../../shared/asks/ask.ts";
import { isTurning, plain } from "../../shared/engine/life.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { engineOf, type SessionState } from "../../shared/session/state.ts";

type Wrong = (state: SessionState, ask: Ask, post: Post) => boolean;
type Rule = readonly [why: string, asks: (ask: Ask) => boolean, wrong: Wrong];

const say =
  (...names: readonly string[]) =>
  (ask: Ask) =>
    names.includes(ask.say);
const offers =
  (...words: readonly string[]) =>
  (ask: Ask) =>
    ask.choices.some((c) => words.includes(c.word));
const life = (state: SessionState, n: number | null) => {
  const engine = n === null ? undefined : engineOf(state, n);
  return engine && plain(engine.life).is;
};
const turns: Wrong = (state, { engine }) => {
  const found = engine === null ? undefined : engineOf(state, engine);
  return found !== undefined && isTurning(found.life);
};
const notIn =
  (...lives: readonly string[]): Wrong =>
  (state, { engine }) =>
    !lives.includes(life(state, engine) ?? "");
const oilAlert: Wrong = (state, { engine }) =>
  state.alerts.some((a) => a.engine === engine && (a.kind === "oilFirstLate" || a.kind === "oilNormalLate"));
const on: Wrong = ({ groundPower }) => groundPower.is === "on";
const off: Wrong = ({ groundPower }) => groundPower.is !== "on";
const anyTurns = (state: SessionState) => state.engines.some((e) => isTurning(e.life));

const MUST_ACT = [
  "fire",
  "cut",
  "hold",
  "oilFirstLate",
  "oilNormalLate",
  "starterLimit",
  "guardMissing",
  "turningUncleared",
];

/** Rules for what no ask may say in a state, because it is false there, unsafe, or impossible. */
export const NEVER: readonly Rule[] = [
  ["a plug that is in is not put in", say("connectPower", "powerConnected", "answer.connectPower"), on],
  ["power that is off is not read", say("volts", "voltsCranked", "answer.powerConnected"), off],
  ["power that is off is not taken away", say("disconnectPower", "powerDisconnected"), off],
  ["power is not said to be off while it is on", say("answer.powerDisconnected"), on],
  [
    "all engines are not said to run while one does not",
    say("disconnectPower", "advance.warmUp"),
    (state) => state.order.some((n) => engineOf(state, n)?.life.is !== "stable"),
  ],
  [
    "chocks that are in are not put in, and are not said to be out",
    say("chocksIn", "insertChocks", "answer.chocksOut", "answer.insertChocks", "allClear"),
    (state) => state.chocks?.in === true,
  ],
  [
    "chocks that are out are not pulled, and are not said to be in",
    say("chocksOut", "removeChocks", "answer.removeChocks", "answer.chocksIn"),
    (state) => state.chocks?.in !== true,
  ],
  ["the guard is not sent to a turning engine's arc", say("guardInPlace", "guardPath", "arcClear"), turns],
  [
    "nobody looks under a turning engine",
    (ask) => ask.say === "drill" && ask.detail?.is === "ofType" && ask.detail.words === "Look under it",
    (state, ask) => (ask.engine === null ? anyTurns(state) : turns(state, ask, "fireGuard")),
  ],
  [
    "no hands on a turning propeller",
    say("handlePropeller", "countBlades", "answer.handlePropeller", "propellerStill", "propellerFree"),
    turns,
  ],
  ["a turning engine is not started", offers("readyToStart", "clearToStart", "cranking"), turns],
  [
    "no engine is started with an alert of its oil",
    offers("readyToStart", "clearToStart", "cranking"),
    oilAlert,
  ],
  [
    "nothing is started under a stop",
    offers("readyToStart", "clearToStart", "cranking"),
    (state) => state.holds.length + state.cuts.length + state.fires.length > 0,
  ],
  ["what does not crank did not catch", say("cranking", "alert.starterLimit"), notIn("cranking")],
  ["a starter needs a clearance", say("crank"), notIn("clear")],
  [
    "oil is watched after the catch",
    say("oilFirst", "oilNormal", "alert.oilFirstLate", "alert.oilNormalLate"),
    notIn("caught"),
  ],
  ["only what runs is set", say("settle"), notIn("running")],
  ["only what runs is warmed up and run up", say("warmUp", "runUp"), notIn("running", "stable")],
  ["only what turns is shut down", offers("shutDown"), (state, ask) => !turns(state, ask, "cockpit")],
  [
    "only what turns is said to turn",
    say("alert.turningUncleared", "answer.turning"),
    (state, ask) => !turns(state, ask, "cockpit"),
  ],
  ["a hold that stands no longer is not obeyed", say("answer.hold", "ownHold"), (s) => s.holds.length === 0],
  [
    "a cut that stands no longer is not obeyed",
    say("answer.cut", "answer.cutAll", "resetCut"),
    (s) => s.cuts.length === 0,
  ],
  [
    "a fire that is out is not fought",
    say("answer.fire", "fireOut", "fireOutSecond"),
    (s) => s.fires.length === 0,
  ],
  [
    "only what turns is cooled down",
    say("coolDownGauge", "coolDownTime", "stopEngine"),
    (s, a) => !turns(s, a, "cockpit"),
  ],
  ["no propeller that turns is asked whether it stands", say("propellerStopped"), turns],
  [
    "no hands go to a propeller that nobody has seen still since it turned",
    say("handlePropeller", "countBlades", "answer.handlePropeller"),
    (state, { engine }) => engine !== null && engineOf(state, engine)?.unseen !== undefined,
  ],
  [
    "nothing of a return is asked in a start",
    say("onStand", "coolDownBegins", "stopEngine", "switchesOff", "coolDownRemark"),
    (state) => state.returning === undefined,
  ],
  [
    "nothing is started in a return",
    offers("readyToStart", "clearToStart", "cranking"),
    (state) => state.returning !== undefined,
  ],
  ["switches are proved off after the last engine", say("switchesOff", "disconnectStopped"), anyTurns],
  [
    "engines that turn are not said to be stopped",
    say("resetCut"),
    (state, ask) => (ask.engine === null ? anyTurns(state) : turns(state, ask, "supervisor")),
  ],
  ["what must be done now is not put aside", offers("shelve"), (_state, ask) => ask.weight === 0],
  [
    "oil, starter, guard and stops are not put aside; silence, volts and an answer that is late may be",
    offers("shelve"),
    (_state, ask) => MUST_ACT.some((kind) => ask.say.endsWith(`.${kind}`)),
  ],
  [
    "an alert does not hide the ask with its answer",
    say("alert.unanswered"),
    (state, ask, post) => {
      const ref = state.alerts.find((a) => ask.key === `alert:${a.id}`)?.ref;
      return state.signals.some((s) => s.id === ref && s.due.includes(post) && !s.answers[post]);
    },
  ],
  [
    "a defect is not done before it is written",
    (ask) =>
      ask.say === "drill" &&
      ask.detail?.is === "ofType" &&
      ask.detail.words === "Write it up" &&
      offers("stepDone")(ask),
    (state) => state.defects.length === 0,
  ],
];

/** Returns what an ask says that it must not say in this state. */
export function wrongsOf(state: SessionState, ask: Ask, post: Post): string[] {
  return NEVER.filter(([, asks, wrong]) => asks(ask) && wrong(state, ask, post)).map(([why]) => why);
}
