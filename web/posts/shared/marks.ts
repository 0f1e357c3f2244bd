import { type Engine, isTurning, type PlainLife, plain } from "../../../shared/engine/life.ts";
import { lifeAt } from "../../../shared/engine/lifeAt.ts";
import { starterDutyAt } from "../../../shared/models/starter.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { airTemperature } from "../../../shared/weather/air.ts";
import { written } from "../../../shared/words/quantity.ts";
import { seconds, secondsLeft } from "../../ui/numbers.ts";
import type { EngineMark, PlanView } from "../../ui/plan/planView.ts";
import type { Words } from "../../words/catalogue.ts";
import type { Text } from "../../words/en/text.ts";

const SHAPES: Readonly<Record<PlainLife["is"], EngineMark["shape"]>> = {
  waiting: "still",
  requested: "asked",
  clear: "clear",
  cranking: "cranking",
  caught: "caught",
  running: "caught",
  stable: "stable",
  shutDown: "stopped",
  cooling: "stopped",
};

/** Returns the shape that marks an engine's state. */
export const shapeOf = (life: Engine["life"]): EngineMark["shape"] =>
  life.is === "fire" ? "fire" : SHAPES[plain(life).is];

/** Returns the current plan, with the engine of the ask marked. */
export function planView(state: SessionState, asked: number | null, now: number, words: Words): PlanView {
  const { groundPower } = state;
  return {
    type: state.type,
    engines: state.engines.map((e) => mark(state, e, asked, now, words)),
    guardAt: state.guard?.engine ?? null,
    chocks: state.chocks === null ? "unknown" : state.chocks.in ? "in" : "out",
    power: {
      is: groundPower.is,
      words: groundPower.is === "on" ? written(groundPower.volts) : groundPower.is,
    },
    cart: state.powerSource === "groundPower",
  };
}

function mark(
  state: SessionState,
  { life: recorded, ...engine }: Engine,
  asked: number | null,
  now: number,
  { say, text }: Words,
): EngineMark {
  const shown = shownLife(state, lifeAt(recorded, now));
  const place = state.type.engines.find((e) => e.n === engine.n);
  const life = plain(shown);
  const { count, over } = counted(life, now, text) ?? resting(state, { ...engine, life }, now, text);
  return {
    n: engine.n,
    x: place?.x ?? 0,
    y: place?.y ?? 0,
    word: say.life(shown),
    shape: shapeOf(shown),
    count: shown.is === "fire" ? say.life(life).toLowerCase() : engine.unseen ? text.plan.unseen : count,
    over,
    turning: isTurning(life),
    asked: engine.n === asked,
  };
}

/** Returns the life that a mark shows: no engine of a return waits for a start, so one that came in stopped is stopped. */
const shownLife = ({ returning }: SessionState, life: Engine["life"]): Engine["life"] =>
  returning && life.is === "waiting" ? { is: "shutDown", since: 0, reason: "" } : life;

/** Returns the running figure beside an engine's state, and whether it is past its limit. */
function counted(
  life: PlainLife,
  now: number,
  { plan, times }: Text,
): { count: string; over: boolean } | null {
  switch (life.is) {
    case "clear":
      return { count: times.left(secondsLeft(life.clearance.expiresAt - now)), over: false };
    case "cranking":
      return { count: seconds(now - life.since), over: now >= life.limitAt };
    case "caught": {
      const due = life.firstOilAt === null ? life.firstDueAt : life.normalDueAt;
      return { count: plan.oil(secondsLeft(due - now)), over: now >= due };
    }
    case "cooling":
      return { count: times.left(secondsLeft(life.until - now)), over: false };
    case "requested":
      return { count: seconds(now - life.since), over: false };
    default:
      return null;
  }
}

/** Returns the rest time the starter of a stationary engine still needs, in words. */
function resting(
  state: SessionState,
  engine: Engine,
  now: number,
  text: Words["text"],
): { count: string | null; over: boolean } {
  const { permittedAt } = starterDutyAt(state.type.starter, engine.starter, now, airTemperature(state));
  const rests = !isTurning(engine.life) && permittedAt > now;
  return { count: rests ? text.worked.rests(secondsLeft(permittedAt - now)) : null, over: false };
}
