import type { Channels } from "../shared/house/channels.ts";
import type { Post } from "../shared/protocol/posts.ts";
import type { AircraftType } from "../shared/types/schema.ts";
import { readAircraftType } from "../shared/types/validate.ts";
import { simulatedChannels } from "./simulatedSamples.ts";
import carrackThree from "./types/carrack-three.json" with { type: "json" };
import kestleFour from "./types/kestle-four.json" with { type: "json" };
import penhaleTwin from "./types/penhale-twin.json" with { type: "json" };

/** A demo person. The PIN is public: it gives access to the demo only. */
export interface DemoPerson {
  id: string;
  handle: string;
  name: string;
  pin: string;
  mayHold: Post[];
}

/** Demo data for one ramp. Every person, maker, aircraft, airfield and cart is invented. */
export interface Demo {
  people: DemoPerson[];
  types: AircraftType[];
  /** Registrations under Q: no state has a nationality mark that begins with it (ICAO Annex 7, from memory). */
  aircraft: { id: string; name: string; typeId: string }[];
  /** The channels of the simulated logger. */
  channels: Channels[];
  places: string[];
  carts: string[];
}

const FLIGHT: Post[] = ["cockpit", "supervisor"];
const RAMP: Post[] = ["fireGuard", "groundPower"];

/** @throws Error naming every fault of an invalid type */
function read(data: unknown): AircraftType {
  const result = readAircraftType(data);
  if ("type" in result) return result.type;
  throw new Error(result.faults.map((f) => `${f.path}: ${f.message}`).join("\n"));
}

const types = [kestleFour, penhaleTwin, carrackThree].map(read);
const aircraft = [
  { id: "QX-KIV", name: "Morning Tide", typeId: "kestle-four" },
  { id: "QX-KES", name: "Windhover", typeId: "kestle-four" },
  { id: "QX-PEN", name: "Little Penhale", typeId: "penhale-twin" },
  { id: "QX-CTD", name: "Old Carrack", typeId: "carrack-three" },
];

export const demo: Demo = {
  people: [
    { id: "wenna", handle: "wenna", name: "Wenna Trevark", pin: "410273", mayHold: FLIGHT },
    { id: "jory", handle: "jory", name: "Jory Penhallick", pin: "582946", mayHold: FLIGHT },
    {
      id: "demelza",
      handle: "demelza",
      name: "Demelza Roskear",
      pin: "736158",
      mayHold: ["supervisor", ...RAMP],
    },
    { id: "perran", handle: "perran", name: "Perran Goldsithe", pin: "294617", mayHold: RAMP },
    { id: "tamsin", handle: "tamsin", name: "Tamsin Boscarn", pin: "861035", mayHold: RAMP },
    { id: "cador", handle: "cador", name: "Cador Nanskeval", pin: "157492", mayHold: ["fireGuard"] },
    { id: "lowen", handle: "lowen", name: "Lowen Chygarder", pin: "603781", mayHold: ["groundPower"] },
    { id: "merryn", handle: "merryn", name: "Merryn Tolvadden", pin: "925364", mayHold: ["supervisor"] },
    { id: "austol", handle: "austol", name: "Austol Vellanwen", pin: "348209", mayHold: ["cockpit"] },
    { id: "keren", handle: "keren", name: "Keren Polglase", pin: "079518", mayHold: [...FLIGHT, ...RAMP] },
  ],
  types,
  aircraft,
  channels: aircraft.map(({ id, typeId }) => ({
    id,
    channels: types.filter((t) => t.id === typeId).flatMap(simulatedChannels),
  })),
  places: [
    "Polgannon Field, stand 4",
    "Polgannon Field, stand 7",
    "Polgannon Field, hard standing by the east hangar",
  ],
  carts: ["Bal Maiden", "Knocker"],
};
