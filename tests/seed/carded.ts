import { demo } from "../../seed/demo-data.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import carrackThree from "./cards/carrack-three.json" with { type: "json" };
import kestleFour from "./cards/kestle-four.json" with { type: "json" };
import penhaleTwin from "./cards/penhale-twin.json" with { type: "json" };

const CARDS: Readonly<Record<string, unknown>> = {
  "carrack-three": carrackThree,
  "kestle-four": kestleFour,
  "penhale-twin": penhaleTwin,
};

/** @throws Error naming every fault of the type with its card */
function withCard(type: AircraftType): AircraftType {
  const conditions = ["cardAnswered", ...type.conditions.filter((c) => c !== "cardAnswered")];
  const result = readAircraftType({ ...type, conditions, card: CARDS[type.id] });
  if ("type" in result) return result.type;
  throw new Error(result.faults.map((f) => `${f.path}: ${f.message}`).join("\n"));
}

/** The demo's types, each with a whole card on which its clearances stand. */
export const carded: readonly AircraftType[] = demo.types.map(withCard);
