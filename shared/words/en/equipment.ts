import type { Cart, Equipment } from "../../protocol/equipment.ts";
import type { DueDate, EquipmentKind, OutCause } from "../../protocol/equipmentKinds.ts";

type Bottle = Extract<Equipment, { kind: "extinguisher" }>;

const kinds: Readonly<Record<EquipmentKind, string>> = {
  cart: "Ground power cart",
  extinguisher: "Fire extinguisher",
  chocks: "Chocks",
  towBar: "Tow bar",
  headset: "Headset",
};

const causes: Readonly<Record<OutCause, string>> = {
  usedUp: "Used up",
  broken: "Broken",
  other: "Out of service",
};

const dates: Readonly<Record<DueDate, string>> = {
  weighedUntil: "Weighed until",
  testedUntil: "Tested until",
};

export const equipment = {
  kinds,
  causes,
  dates,
  cart: ({ volts, continuousA, peakA, cable }: Pick<Cart, "volts" | "continuousA" | "peakA" | "cable">) =>
    `${volts} V, ${continuousA} A all the time, ${peakA} A at its peak, cable ${cable.size} of ${cable.metres} m${cable.parallel > 1 ? `, ${cable.parallel} side by side` : ""}`,
  bottle: ({ agent, chargeKg }: Pick<Bottle, "agent" | "chargeKg">) => `${agent}, ${chargeKg} kg`,
  until: (date: DueDate, day: string) => `${dates[date].toLowerCase()} ${day}`,
  shown: (when: string, who: string) => `label read at the stand at ${when} UTC by ${who}`,
  notShown: "label not read at the stand",
};

export type EquipmentWords = typeof equipment;
