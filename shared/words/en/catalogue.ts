import type { Language } from "../language.ts";
import { asks, choices, idle } from "./asks.ts";
import { conditions } from "./conditions.ts";
import { runUpItems } from "./runUp.ts";
import { signals } from "./signals.ts";
import { caution, firePlaces, lives, posts, stages, voids } from "./states.ts";
import { lightningActs } from "./weather.ts";

/** The sentences of a session in English. The compiler requires the same keys of every other language. */
export const catalogue = {
  language: "en" as Language,
  asks,
  idle,
  choices,
  conditions,
  lightningActs,
  runUpItems,
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
    deferral: "its last day or its starts",
    none: "none",
  },
  /** Words between figures, e.g. "1 to 4". */
  joints: { to: "to", of: "of", gust: "gust", "from behind": "from behind", across: "across" },
};

export type Catalogue = typeof catalogue;
