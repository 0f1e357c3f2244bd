import type { Language } from "../language.ts";
import { asks, choices, idle } from "./asks.ts";
import { conditions } from "./conditions.ts";
import { refusals } from "./refusals.ts";
import { runUpChecks, runUpFaults, runUpItems } from "./runUp.ts";
import { signals } from "./signals.ts";
import { caution, firePlaces, lives, posts, stages, voids } from "./states.ts";
import { lightningActs, reportFaults, reportParts, reportThunder } from "./weather.ts";

/** The sentences of a session in English. The compiler requires the same keys of every other language. */
export const catalogue = {
  language: "en" as Language,
  asks,
  idle,
  choices,
  conditions,
  refusals,
  lightningActs,
  reportParts,
  reportFaults,
  reportThunder,
  runUpItems,
  runUpChecks,
  runUpFaults,
  signals,
  posts,
  observer: "Observer",
  /** A person whose name was erased, by six characters that stay the same. */
  erased: "Erased person {d}",
  stages,
  lives,
  firePlaces,
  voids,
  caution,
  /** Place of an engine, e.g. "port outboard". */
  sides: { port: "port", starboard: "starboard", centre: "centre" },
  spans: { inboard: "inboard", outboard: "outboard", middle: "middle" },
  setAside: (condition: string) => `${condition}: set aside by two people`,
  runUp: (what: string, engine: string | null) =>
    engine === null ? `Run-up: ${what}` : `Run-up of number ${engine}: ${what}`,
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
  /** Words that a finding, a refusal or a drill's outcome can name in place of a figure. */
  found: {
    hold: "hold",
    cut: "cut",
    fire: "fire",
    off: "off",
    connecting: "connecting ground power",
    disconnecting: "disconnecting ground power",
    inserting: "inserting chocks",
    removing: "removing chocks",
    released: "released",
    pressure: "pressure",
    resistance: "resistance",
    noGenerator: "no generator",
    batteries: "batteries",
    QNH: "QNH",
    "field's height": "field's height",
    "distance unknown": "distance unknown",
    "heading not planned": "heading not planned",
    "direction unknown": "direction unknown",
    "as it swings": "as it swings",
    "times that rise from one sample to the next": "times that rise from one sample to the next",
    wind: "wind",
    "begun before it ended": "cranking begun before it ended",
    notReportedDone: "not reported done",
    reason: "reason",
    defect: "the defect",
    none: "none",
  },
  /** Outcome of a drill to which nobody gave words of their own. */
  workedThrough: "completed",
  wasASlip: "the fire was reported by mistake",
  /** Words between figures, e.g. "1 to 4". */
  joints: { to: "to", of: "of", gust: "gust", "from behind": "from behind", across: "across" },
};

export type Catalogue = typeof catalogue;
