import { starterDutyAt } from "../../../shared/models/starter.ts";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { airTemperature } from "../../../shared/session/air.ts";
import {
  type Engine,
  isTurning,
  type PlainLife,
  plain,
  type SessionState,
} from "../../../shared/session/state.ts";
import { say } from "../../../shared/words/en.ts";
import { written, writtenBoth } from "../../../shared/words/quantity.ts";
import { seconds, secondsLeft } from "../../ui/numbers.ts";
import type { EngineMark, PlanView } from "../../ui/plan/planView.ts";
import type { Words } from "../../words/words.ts";

const SHAPES: Readonly<Record<PlainLife["is"], EngineMark["shape"]>> = {
  waiting: "ring",
  requested: "asked",
  clear: "clear",
  cranking: "turning",
  caught: "turning",
  running: "turning",
  stable: "stable",
  shutDown: "stopped",
  cooling: "stopped",
};

/** The plan as it stands, with the engine in question marked. */
export function planView(state: SessionState, asked: number | null, now: number, { text }: Words): PlanView {
  const { groundPower } = state;
  return {
    type: state.type,
    engines: state.engines.map((e) => mark(state, e, asked, now, text)),
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
  engine: Engine,
  asked: number | null,
  now: number,
  text: Words["text"],
): EngineMark {
  const place = state.type.engines.find((e) => e.n === engine.n);
  const life = plain(engine.life);
  const { count, over } = counted(life, now) ?? resting(state, engine, now, text);
  return {
    n: engine.n,
    x: place?.x ?? 0,
    y: place?.y ?? 0,
    word: say.life(engine.life),
    shape: engine.life.is === "fire" ? "fire" : SHAPES[life.is],
    count: engine.life.is === "fire" ? say.life(life).toLowerCase() : count,
    over,
    turning: ["cranking", "caught", "running", "stable"].includes(life.is),
    asked: engine.n === asked,
  };
}

/** The running figure beside an engine's state, and whether it is past its limit. */
function counted(life: PlainLife, now: number): { count: string; over: boolean } | null {
  switch (life.is) {
    case "clear":
      return { count: `${secondsLeft(life.clearance.expiresAt - now)} left`, over: false };
    case "cranking":
      return { count: seconds(now - life.since), over: now >= life.limitAt };
    case "caught": {
      const due = life.firstOilAt === null ? life.firstDueAt : life.normalDueAt;
      return { count: `oil ${secondsLeft(due - now)}`, over: now >= due };
    }
    case "cooling":
      return { count: `${secondsLeft(life.until - now)} left`, over: false };
    case "requested":
      return { count: seconds(now - life.since), over: false };
    default:
      return null;
  }
}

/** How long the starter of an engine that stands still must rest yet. */
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

/** What the plan's notes say beside it: each a plain sentence. */
export function planNotes(state: SessionState, now: number, units: UnitChoice): string[] {
  const { brakes, chocks, groundPower, guard } = state;
  const age = (at: number) => seconds(now - at);
  const pressure = brakes?.pressure ? ` at ${writtenBoth(brakes.pressure, units, { step: 1 })}` : "";
  return [
    chocks === null ? "Chocks: not reported" : `Chocks ${chocks.in ? "in" : "out"}, ${age(chocks.at)}`,
    brakes === null
      ? "Brakes: not reported"
      : `Brakes ${brakes.set ? `set${pressure}` : "released"}, ${age(brakes.at)}`,
    groundPower.is === "unknown"
      ? state.powerSource === "batteries"
        ? "Start on batteries"
        : "Ground power: not reported"
      : groundPower.is === "on"
        ? `Ground power on, ${writtenBoth(groundPower.volts, units)}, ${age(groundPower.by.at)}`
        : `Ground power off, ${age(groundPower.by.at)}`,
    guard === null ? "Fire guard: not in place" : `Fire guard at number ${guard.engine}, ${age(guard.at)}`,
    ...(state.handling ? [`Hands on the propeller of number ${state.handling.engine}: ignition off`] : []),
    ...(state.weather ? [windWords(state.weather, now, units)] : []),
    ...state.defects.filter((d) => d.barsStart).map((d) => `Defect bars the start: ${d.words}`),
    `Order ${state.order.join("-")}`,
  ];
}

function windWords(weather: NonNullable<SessionState["weather"]>, now: number, units: UnitChoice): string {
  const { windKt, gustKt, temperatureC, by } = weather;
  const gusts = gustKt === null ? "" : `, gusts ${gustKt} kt`;
  const air = temperatureC === null ? "" : `, ${writtenBoth({ value: temperatureC, unit: "degC" }, units)}`;
  return `Wind ${windKt} kt${gusts}${air}, ${seconds(now - by.at)}`;
}
