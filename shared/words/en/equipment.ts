import type { DueDate, EquipmentKind, OutCause } from "../../protocol/equipmentKinds.ts";

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
  cart: (volts: number, steadyA: number, peakA: number) =>
    `${volts} V, ${steadyA} A all the time, ${peakA} A at its peak`,
  cable: (size: string, metres: number) => `cable ${size} of ${metres} m`,
  parallel: (cables: number) => `${cables} side by side`,
  bottle: (agent: string, chargeKg: number) => `${agent}, ${chargeKg} kg`,
  until: (date: string, day: string) => `${date} ${day}`,
  shown: (when: string, who: string) => `label read at the stand at ${when} UTC by ${who}`,
  notShown: "label not read at the stand",
};

export type EquipmentWords = typeof equipment;
