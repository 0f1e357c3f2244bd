import { type Engine, isTurning, type PlainLife, plain } from "../../../shared/engine/life.ts";
import { lifeAt } from "../../../shared/engine/lifeAt.ts";
import { starterDutyAt } from "../../../shared/models/starter.ts";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { notSeenStill } from "../../../shared/stopping/unseen.ts";
import { airTemperature } from "../../../shared/weather/air.ts";
import { written, writtenBoth } from "../../../shared/words/quantity.ts";
import { seconds, secondsLeft } from "../../ui/numbers.ts";
import type { EngineMark, PlanView } from "../../ui/plan/planView.ts";
import type { Words } from "../../words/catalogue.ts";
import type { Text } from "../../words/en/text.ts";
import { lightningNote, windNote } from "./airNotes.ts";

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
  const shown = lifeAt(recorded, now);
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
    turning: ["cranking", "caught", "running", "stable"].includes(life.is),
    asked: engine.n === asked,
  };
}

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

/** Returns the notes beside the plan, one sentence each. */
export function planNotes(state: SessionState, now: number, units: UnitChoice, words: Words): string[] {
  const { text } = words;
  const { plan } = text;
  const { brakes, chocks, guard } = state;
  const age = (at: number) => seconds(now - at);
  const pressure = brakes?.pressure ? writtenBoth(brakes.pressure, units, { step: 1 }) : null;
  return [
    chocks === null ? plan.chocksUnknown : (chocks.in ? plan.chocksIn : plan.chocksOut)(age(chocks.at)),
    brakes === null
      ? plan.brakesUnknown
      : brakes.set
        ? plan.brakesSet(pressure, age(brakes.at))
        : plan.brakesReleased(age(brakes.at)),
    powerWords(state, now, units, plan),
    guard === null ? plan.guardAway : plan.guardAt(guard.engine, age(guard.at)),
    ...handsWords(state, plan),
    ...(state.handling ? [plan.handling(state.handling.engine)] : []),
    ...fromElsewhere(state, now, units, words),
    ...[lightningNote(state, now, text), windNote(state, now, units, text)].filter((n) => n !== null),
    ...state.defects.filter((d) => d.barsStart).map((d) => plan.defect(d.words)),
    plan.order(state.order.join("-")),
  ];
}

/** Returns whether hands are allowed at the propellers of an aircraft that came back. */
function handsWords(state: SessionState, plan: Text["plan"]): string[] {
  if (!state.returning) return [];
  const left = notSeenStill(state);
  if (state.stage === "stowing" && left.length === 0 && state.returning.switchesOff)
    return [plan.handsAllowed];
  return [left.length === 0 ? plan.handsNotYet : plan.handsBarred(left.join(", "))];
}

/** Marks of what earlier sessions left at the aircraft, and of their last reports where this one has none yet. */
function fromElsewhere(
  { standing, chocks, brakes, groundPower }: SessionState,
  now: number,
  units: UnitChoice,
  { text: { plan }, say }: Words,
): string[] {
  if (!standing) return [];
  const age = (by: { at: number }) => seconds(now - by.at);
  const { chocks: chocksThen, brakes: brakesThen, groundPower: powerThen } = standing.lastReported;
  const before: string[] = [];
  if (chocks === null && chocksThen)
    before.push((chocksThen.in ? plan.chocksIn : plan.chocksOut)(age(chocksThen.by)));
  if (brakes === null && brakesThen) {
    const pressure = brakesThen.pressure ? writtenBoth(brakesThen.pressure, units, { step: 1 }) : null;
    before.push(
      brakesThen.set ? plan.brakesSet(pressure, age(brakesThen.by)) : plan.brakesReleased(age(brakesThen.by)),
    );
  }
  if (groundPower.is === "unknown" && powerThen) {
    const volts = powerThen.volts ? writtenBoth(powerThen.volts, units) : "";
    before.push(
      powerThen.is === "on" ? plan.powerOn(volts, age(powerThen.by)) : plan.powerOff(age(powerThen.by)),
    );
  }
  return [
    ...before.map(plan.reportedBefore),
    ...standing.hands.map((h) => plan.handsLeft(h.engine)),
    ...(standing.leaves ?? []).map((l) => plan.leaveLeft(say.signal(l.service, null))),
    ...standing.turning.map((t) => plan.leftTurning(t.engine)),
  ];
}

function powerWords(state: SessionState, now: number, units: UnitChoice, plan: Text["plan"]): string {
  const { groundPower: power } = state;
  if (power.is === "unknown") return state.powerSource === "batteries" ? plan.batteries : plan.powerUnknown;
  const age = seconds(now - power.by.at);
  return power.is === "on" ? plan.powerOn(writtenBoth(power.volts, units), age) : plan.powerOff(age);
}
