import type { Post } from "../../shared/protocol/posts.ts";
import type { Person } from "../../shared/session/step.ts";
import type { CardItem } from "../../shared/types/card.ts";
import { type AircraftType, aircraftTypeSchema } from "../../shared/types/schema.ts";

/** Server time of the prepared state. A multiple of a second, so that every deadline falls on the search's grid. */
export const START = 1_700_000_000_000;
/** Event numbers of the search begin here, so that its size tells an id from any other number. */
export const FIRST_ID = 1_000_000;

const source = { basis: "invented", text: "small figures for the search" } as const;
const seconds = (value: number) => ({ value, unit: "s" as const, source });

/** Two engines and times of a few seconds: the smallest type in which every rule of a start can be met and broken. */
const data = {
  id: "twin",
  version: 1,
  name: "Search twin",
  author: "the search",
  approvedBy: null,
  note: "Exists only to be searched.",
  plan: { span: 20, length: 15, mainGearX: 5, gearTrack: 4, receptacle: { x: 8, y: 1 } },
  engines: [
    { n: 1, x: 4, y: -3, accessories: ["generator"] },
    { n: 2, x: 4, y: 3, accessories: ["generator"] },
  ],
  propeller: { diameter: 3, blades: 3, gearRatio: 0.5 },
  defaultOrder: [1, 2],
  orderSource: source,
  brakePressure: { atLeast: { value: 50, unit: "psi", source } },
  groundPower: {
    steadyMin: { value: 26, unit: "V", source },
    steadyMax: { value: 30, unit: "V", source },
  },
  starter: { ladder: [{ onMax: seconds(2), rest: seconds(2) }], resetAfter: seconds(4) },
  oil: {
    firstIndication: { atLeast: { value: 10, unit: "psi", source }, within: seconds(1) },
    normal: { atLeast: { value: 40, unit: "psi", source }, within: seconds(2) },
  },
  warmUp: [],
  gauges: [
    {
      id: "oilPressure",
      name: "Oil pressure",
      unit: "psi",
      perEngine: true,
      scale: { from: 0, to: 100, step: 1 },
      source,
    },
  ],
  checks: [],
  conditions: [
    "noStopOpen",
    "guardInPlace",
    "arcClear",
    "brakesSet",
    "chocksIn",
    "groundPowerKnown",
    "noOtherTurningUp",
    "othersSettled",
    "starterCool",
    "postsHeld",
    "guardPathClear",
    "handsOffPropellers",
    "noBarringDefect",
  ],
  overridable: ["brakesSet"],
  bladeCount: {
    dueAfter: { value: 1000, unit: "s", source },
    blades: { value: 3, unit: "count", source },
  },
  wind: { max: { value: 30, unit: "kt", source }, gustMax: { value: 40, unit: "kt", source } },
  drills: [
    {
      id: "kickback",
      title: "Kickback",
      triggers: ["manual"],
      bars: "engine",
      cards: { cockpit: [], fireGuard: [], groundPower: [], supervisor: [] },
      source,
    },
  ],
  stopping: {
    order: [2, 1],
    orderSource: source,
    coolDown: { atIdle: seconds(2), gauges: [] },
    still: { by: "another", source },
  },
  requiredPosts: ["cockpit", "fireGuard", "supervisor"],
  timing: {
    clearance: seconds(3),
    request: seconds(2),
    readBack: seconds(1),
    stop: seconds(1),
    stopEscalate: seconds(2),
    service: seconds(2),
    serviceEscalate: seconds(3),
    guardInPlace: seconds(4),
    arcClear: seconds(2),
    brakes: seconds(5),
    groundPower: seconds(6),
    area: seconds(6),
    weather: seconds(6),
    override: seconds(1),
    resound: seconds(3),
    presenceSeen: seconds(1),
    presenceHeard: seconds(2),
    presenceHold: seconds(4),
    slip: seconds(1),
  },
};

/** Its times are shorter than a person can act in, so only its shape is read. */
export const TYPE = aircraftTypeSchema.parse(data);
const item = (id: string, moment: CardItem["moment"], kind: CardItem["kind"] = { is: "done" }): CardItem => ({
  id,
  words: id,
  moment,
  post: "cockpit",
  kind,
  source,
});

/** The same with a card: two items on which a clearance stands, and what is watched as an engine turns and catches. */
export const CARDED: AircraftType = {
  ...TYPE,
  conditions: [...TYPE.conditions, "cardAnswered"],
  card: [
    { ...item("batteries", "beforeStart"), clearance: true },
    { ...item("mixture", "beforeEngine"), clearance: true },
    item("fuelWatch", "cranking"),
    item("horizon", "caught", { is: "alive", within: seconds(2) }),
  ],
};
const degC = (value: number) => ({ value, unit: "degC" as const, source });
/** The same with a faster idle from warm oil on, and with oil dilution by the night's forecast in a return. */
export const WARMED: AircraftType = {
  ...TYPE,
  gauges: [
    ...TYPE.gauges,
    {
      ...{ id: "oilTemp", name: "Oil temperature", unit: "degC", perEngine: true },
      ...{ scale: { from: 0, to: 100, step: 1 }, source },
    },
  ],
  idle: [
    { rpm: { value: 1000, unit: "rpm", source } },
    { rpm: { value: 1200, unit: "rpm", source }, from: { gauge: "oilTemp", atLeast: degC(40) } },
  ],
  checks: [
    {
      ...{ id: "nightLeast", words: "Least temperature of the night", stage: "stopping", post: "cockpit" },
      ...{ range: { unit: "degC" }, source },
    },
  ],
  stopping: TYPE.stopping && {
    ...TYPE.stopping,
    oilDilution: {
      ...{ check: "nightLeast", noneFrom: degC(4) },
      steps: [{ downTo: degC(-12), percent: { value: 10, unit: "percent", source }, time: seconds(2) }],
    },
  },
};
/** Longer than the longest duration of the type: a greater age changes nothing. */
export const OLDEST = 7000;

const person = (id: string, device: string, ...mayHold: Post[]): Person => ({
  id,
  name: id,
  device,
  mayHold,
});

export const PEOPLE = {
  cockpit: person("ana", "tablet1", "cockpit"),
  fireGuard: person("ben", "tablet2", "fireGuard"),
  groundPower: person("cy", "tablet3", "groundPower"),
  supervisor: person("dee", "tablet4", "supervisor"),
  /** Holds no post at first; may take the guard's or the cockpit's. */
  spare: person("eve", "tablet5", "fireGuard", "cockpit"),
  /** The fire guard on another device. */
  guardAgain: person("ben", "tablet6", "fireGuard"),
} as const;
