/** A name and the meaning of each finding; `{f}` is the deciding fact. */
interface ConditionWords {
  name: string;
  yes: string;
  no: string;
  stale: string;
  unknown: string;
}

/** Every condition in words. A key is the condition's id, and the order is that of `CONDITION_IDS`. */
export const conditions = {
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
  postsCurrent: {
    name: "Training current",
    yes: "Everybody's training is current",
    no: "Training has lapsed: {f}",
    stale: "",
    unknown: "",
  },
  bladesCounted: {
    name: "Blades counted",
    yes: "Blades counted through, or ran lately",
    no: "Blade count: {f}",
    stale: "Blade count is old",
    unknown: "Blades not counted",
  },
  handsOffPropellers: {
    name: "Hands off propellers",
    yes: "Nobody is at a propeller",
    no: "Somebody is at the propeller of number {f}",
    stale: "",
    unknown: "",
  },
  propellersStill: {
    name: "Propellers seen still",
    yes: "No propeller was left turning",
    no: "Left turning, not yet seen still: {f}",
    stale: "",
    unknown: "",
  },
  noLeaveOut: {
    name: "Nobody at the aircraft on leave",
    yes: "Nobody is at the aircraft on the crew's leave",
    no: "People may be at the aircraft: {f}",
    stale: "",
    unknown: "",
  },
  noDrillBars: {
    name: "No drill bars the start",
    yes: "No open drill bars the start",
    no: "Open drill bars the start: {f}",
    stale: "",
    unknown: "",
  },
  extinguisherChecked: {
    name: "Extinguisher checked",
    yes: "Extinguisher checked",
    no: "Extinguisher not good",
    stale: "",
    unknown: "Extinguisher not checked",
  },
  guardPathClear: {
    name: "Guard's way clear",
    yes: "The guard's way crossed no turning arc",
    no: "The guard's way leads through the arc of number {f}",
    stale: "",
    unknown: "The guard is not at this engine",
  },
  areaChecked: {
    name: "Area and gravel checked",
    yes: "Area and gravel checked",
    no: "Area not good",
    stale: "Area check is old",
    unknown: "Area not checked",
  },
  fuellingClear: {
    name: "No fuelling or spill near",
    yes: "No fuelling or spill near",
    no: "Fuelling or a spill is near",
    stale: "Fuelling check is old",
    unknown: "Fuelling not checked",
  },
  windWithinLimits: {
    name: "Wind within limits",
    yes: "Wind within limits",
    no: "Wind is over the limit: {f}",
    stale: "Wind reading is old",
    unknown: "Wind not read, or its side not known because no heading is planned",
  },
  lightningClear: {
    name: "No lightning near",
    yes: "No lightning near",
    no: "Lightning: {f}",
    stale: "",
    unknown: "",
  },
  noBarringDefect: {
    name: "No defect bars the start",
    yes: "No open defect bars the start",
    no: "Open defect bars the start: {f}",
    stale: "",
    unknown: "",
  },
  cartOutputOff: {
    name: "Cart output off",
    yes: "Cart output is off for plugging",
    no: "Cart output is not off",
    stale: "Cart check is old",
    unknown: "Cart output not checked",
  },
  generatorsCarry: {
    name: "Generators carry the load",
    yes: "Generators carry the load",
    no: "No generator carries the load",
    stale: "Generator reading is old",
    unknown: "Generators not read",
  },
  inboardStopped: {
    name: "Inboard engines stopped",
    yes: "Inboard engines stand still",
    no: "Number {f} still turns",
    stale: "",
    unknown: "",
  },
} satisfies Record<string, ConditionWords>;
