import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import type { Engine } from "../engine/life.ts";
import type { Post } from "../protocol/posts.ts";
import { reading } from "../readings/ask.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { gaugeName } from "../types/gaugeName.ts";
import { coolDownShort, idleUntil } from "./coolDown.ts";
import { nextToStop } from "./nextToStop.ts";
import { notSeenStill } from "./unseen.ts";

/** Returns the supervisor's ask whether the aircraft stands on its place. */
export function onStandAsk(state: SessionState): Ask[] {
  if (state.stage !== "arrival" || state.returning?.onStand || stopOpen(state)) return [];
  return [
    ask({ key: "onStand", say: "onStand", weight: 3, choices: [choice("onStand", "yes", send("onStand"))] }),
  ];
}

/** Returns the cockpit's ask to idle the engines for their cool-down. */
export function coolDownBegins(state: SessionState): Ask[] {
  const { returning, type, stage } = state;
  const here = (stage === "arrival" && returning?.onStand) || stage === "stopping";
  if (!here || !type.stopping?.coolDown || returning?.coolingSince !== null) return [];
  if (nextToStop(state) === null) return [];
  return [
    ask({
      key: "coolDown",
      say: "coolDownBegins",
      weight: 3,
      choices: [choice("idling", "yes", send("coolDown"))],
    }),
  ];
}

/** Returns the cockpit's ask to stop the next engine, or what its cool-down still waits for. */
export function stopNext(state: SessionState, now: number): Ask[] {
  const engine = nextToStop(state);
  if (!engine || (state.stage !== "stopping" && state.stage !== "stowing")) return [];
  const begun = !state.type.stopping?.coolDown || state.returning?.coolingSince !== null;
  if (!begun && state.stage === "stopping") return [];
  const short = coolDownShort(state, engine, now);
  if (short.length === 0) {
    const stop = choice("shutDown", "yes", send("shutDown", engine.n));
    return [
      ask({ key: `stop:${engine.n}`, say: "stopEngine", weight: 3, engine: engine.n, choices: [stop] }),
    ];
  }
  return [cooling(state, engine, short)];
}

/** Returns the ask while an engine cools: the gauge to read, and that it can be stopped all the same. */
function cooling(state: SessionState, { n }: Engine, short: ReturnType<typeof coolDownShort>): Ask {
  const warm = short.find((s) => s.is === "gauge");
  const timed = short.some((s) => s.is === "time");
  const reads: Choice[] = warm ? [reading(state, warm.gauge, n)] : [];
  return ask({
    key: `cooling:${n}:${warm?.gauge ?? "time"}`,
    say: warm ? "coolDownGauge" : "coolDownTime",
    weight: warm ? 3 : 4,
    engine: n,
    since: state.returning?.coolingSince ?? null,
    dueAt: timed ? idleUntil(state) : null,
    detail: warm ? { is: "gauge", name: gaugeName(state.type, warm.gauge) } : null,
    choices: [...reads, choice("stopWarm", "no", send("shutDown", n))],
  });
}

/** Returns the cockpit's ask to prove the switches off, once every propeller was seen still. */
export function switchesAsk(state: SessionState): Ask[] {
  if (state.stage !== "stopping" && state.stage !== "stowing") return [];
  if (state.returning?.switchesOff !== null || notSeenStill(state).length > 0) return [];
  return [
    ask({
      key: "switchesOff",
      say: "switchesOff",
      weight: 3,
      choices: [choice("switchesOff", "yes", send("switchesOff"))],
    }),
  ];
}

/** Returns the cockpit's ask why an engine was stopped before it had cooled. */
export function remarkAsk(state: SessionState): Ask[] {
  if (stopOpen(state)) return [];
  return (state.returning?.remarksDue ?? []).map((engine) =>
    ask({
      key: `remark:${engine}`,
      say: "coolDownRemark",
      weight: 4,
      engine,
      choices: [
        choice(
          "writeReason",
          "yes",
          { type: "writeDefect", engine, barsStart: false },
          { is: "words", field: "words" },
        ),
      ],
    }),
  );
}

const WITNESSES: readonly Post[] = ["fireGuard", "groundPower", "supervisor"];

/** Returns the post that is asked whether a propeller stands still: the guard, or who is there in its place. */
export function witnessOf(state: SessionState, engine: number): Post | null {
  const stopped = engineOf(state, engine)?.unseen?.stoppedBy;
  const guardAlone = state.type.stopping?.still.by === "guard" && stopped;
  const posts = guardAlone ? (["fireGuard"] as const) : WITNESSES;
  return (
    posts.find((post) => {
      const holder = state.posts[post];
      return holder && holder.id !== stopped?.person && holder.device !== stopped?.device;
    }) ?? null
  );
}

/** Returns the asks whether the propeller of each stopped engine stands still. */
export function stillAsks(state: SessionState, post: Post): Ask[] {
  if (state.stage !== "stopping" && state.stage !== "stowing") return [];
  return state.engines
    .filter((e) => e.unseen !== undefined && witnessOf(state, e.n) === post)
    .map((e) => stillAsk(e.n, "propellerStopped"));
}

/** Returns the ask whether one propeller stands still. */
export function stillAsk(engine: number, say: "propellerStopped" | "propellerStill"): Ask {
  const still = choice("propellerStill", "yes", send("propellerStill", engine));
  return ask({ key: `still:${engine}`, say, weight: 3, engine, choices: [still] });
}
