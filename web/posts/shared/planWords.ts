import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { notSeenStill } from "../../../shared/stopping/unseen.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { seconds } from "../../ui/numbers.ts";
import type { Words } from "../../words/catalogue.ts";
import type { LaterWords } from "../../words/en/later.ts";
import { laterWords } from "../../words/later.ts";
import { lightningNote, windNote } from "./airNotes.ts";

type PlanNotes = LaterWords["planNotes"];

/** Returns the notes beside the plan, one sentence each. */
export function planNotes(state: SessionState, now: number, units: UnitChoice, words: Words): string[] {
  const { air, planNotes: plan } = laterWords(words.say.language);
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
    ...[lightningNote(state, now, air), windNote(state, now, units, air)].filter((n) => n !== null),
    ...state.defects.filter((d) => d.barsStart).map((d) => plan.defect(d.words)),
    plan.order(state.order.join("-")),
  ];
}

/** Returns whether hands are allowed at the propellers of an aircraft that came back. */
function handsWords(state: SessionState, plan: PlanNotes): string[] {
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
  { say }: Words,
): string[] {
  const plan = laterWords(say.language).planNotes;
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

function powerWords(state: SessionState, now: number, units: UnitChoice, plan: PlanNotes): string {
  const { groundPower: power } = state;
  if (power.is === "unknown") return state.powerSource === "batteries" ? plan.batteries : plan.powerUnknown;
  const age = seconds(now - power.by.at);
  return power.is === "on" ? plan.powerOn(writtenBoth(power.volts, units), age) : plan.powerOff(age);
}
