import type { ConditionId, Finding } from "../conditions/condition.ts";

type Is = Finding["is"];

/** Each condition's name and what each answer means; `{f}` the deciding fact. */
export const CONDITION_WORDS: Readonly<Record<ConditionId, { name: string } & Record<Is, string>>> = {
  noStopOpen: {
    name: "No stop stands",
    yes: "No hold, cut or fire stands",
    no: "A {f} stands",
    stale: "",
    unknown: "",
  },
  guardInPlace: {
    name: "Fire guard in place",
    yes: "Fire guard in place",
    no: "Fire guard is at number {f}",
    stale: "Fire guard's report is old",
    unknown: "Fire guard has not reported in place",
  },
  arcClear: {
    name: "Arc clear",
    yes: "Arc reported clear",
    no: "Arc reported not clear",
    stale: "Arc report is old",
    unknown: "Arc not reported",
  },
  brakesSet: {
    name: "Brakes set",
    yes: "Brakes set with pressure",
    no: "Brakes are released or their pressure is low: {f}",
    stale: "Brake report is old",
    unknown: "Brakes not reported set with pressure",
  },
  chocksIn: {
    name: "Chocks in",
    yes: "Chocks in",
    no: "Chocks are out",
    stale: "",
    unknown: "Chocks not reported in",
  },
  groundPowerKnown: {
    name: "Electrical source known",
    yes: "Electrical source known and in range",
    no: "Ground power is {f}",
    stale: "Volts reading is old",
    unknown: "Ground power not reported",
  },
  noOtherTurningUp: {
    name: "One engine at a time",
    yes: "No other engine is cranking or cleared",
    no: "Number {f} is cranking or cleared",
    stale: "",
    unknown: "",
  },
  othersSettled: {
    name: "Other engines settled",
    yes: "Other engines are stable or stopped",
    no: "Number {f} is not settled",
    stale: "",
    unknown: "",
  },
  starterCool: {
    name: "Starter rested",
    yes: "Starter rested",
    no: "Starter is cooling",
    stale: "",
    unknown: "",
  },
  postsHeld: {
    name: "Posts held and briefed",
    yes: "Every post is held and briefed",
    no: "Post not held or not briefed: {f}",
    stale: "",
    unknown: "",
  },
};
