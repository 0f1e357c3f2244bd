import { refusals } from "./refusals.ts";
import { runUpChecks, runUpFaults } from "./runUpFaults.ts";
import { reportFaults, reportParts, reportThunder } from "./weatherReport.ts";

/** Words for the end of something: refused, missing, judged or ended. A panel loads these after its first picture. */
export const outcomes = {
  refusals,
  reportParts,
  reportFaults,
  reportThunder,
  runUpChecks,
  runUpFaults,
  runUp: (what: string, engine: string | null) =>
    engine === null ? `Run-up: ${what}` : `Run-up of number ${engine}: ${what}`,
  /** Words that a finding, a refusal or a drill's outcome can name in place of a figure. */
  missing: {
    post: (post: string) => `Nobody holds ${post}`,
    briefed: (post: string) => `${post} has not confirmed the brief`,
    card: (item: string) => `Item of the card not answered or not good: ${item}`,
    check: (check: string) => `Check not done or not good: ${check}`,
    condition: (condition: string) => `${condition}: not met`,
    blades: (engine: string) => `Blades of number ${engine} not counted`,
    handling: (engine: string) => `Somebody is at the propeller of number ${engine}`,
    engine: (engine: string) => `Number ${engine} is not stable`,
    stopped: (engine: string) => `Number ${engine} still turns`,
    still: (engine: string) => `Propeller of number ${engine} not seen still`,
    remark: (engine: string) => `No reason written why number ${engine} was stopped warm`,
    gate: (engine: string, gauge: string) => `Number ${engine} has not reached its ${gauge}`,
    powerOff: "Ground power is still on",
    chocksOut: "Chocks are not out",
    allClear: "All clear has not been answered",
    onStand: "The aircraft is not on its stand",
    switchesOff: "Switches not proved off",
    /** A code that another version of the program sent. */
    unknown: (code: string) => `Something this program does not know: ${code}`,
  },
  overrideEnds: {
    late: "no second person in time",
    epoch: "there was a stop, a change of post or a restart",
    used: "used",
    changed: "something newer or worse was found",
    stageLeft: "the session left the starting stage",
  },
  limits: { starterTime: "starter", oilFirst: "first oil pressure", oilNormal: "normal oil pressure" },
  /** Outcome of a drill to which nobody gave words of their own. */
  workedThrough: "completed",
  wasASlip: "the fire was reported by mistake",
};

export type Outcomes = typeof outcomes;
