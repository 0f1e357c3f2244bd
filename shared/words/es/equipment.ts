import type { DueDate, EquipmentKind, OutCause } from "../../protocol/equipmentKinds.ts";
import type { EquipmentWords } from "../en/equipment.ts";

const kinds: Readonly<Record<EquipmentKind, string>> = {
  cart: "Planta externa",
  extinguisher: "Extintor",
  chocks: "Calzas",
  towBar: "Barra de remolque",
  headset: "Auricular",
};

const causes: Readonly<Record<OutCause, string>> = {
  usedUp: "Gastado",
  broken: "Roto",
  other: "Fuera de servicio",
};

const dates: Readonly<Record<DueDate, string>> = {
  weighedUntil: "Pesado hasta",
  testedUntil: "Probado hasta",
};

export const equipment: EquipmentWords = {
  kinds,
  causes,
  dates,
  cart: (volts, steadyA, peakA) => `${volts} V, ${steadyA} A todo el tiempo, ${peakA} A como máximo`,
  cable: (size, metres) => `cable ${size} de ${metres} m`,
  parallel: (cables) => `${cables} en paralelo`,
  bottle: (agent, chargeKg) => `${agent}, ${chargeKg} kg`,
  until: (date, day) => `${date} ${day}`,
  shown: (when, who) => `etiqueta leída en el puesto a las ${when} UTC por ${who}`,
  notShown: "etiqueta no leída en el puesto",
};
