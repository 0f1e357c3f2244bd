import type { Outcomes } from "../en/outcomes.ts";

export const runUpChecks: Outcomes["runUpChecks"] = {
  power: "potencia:",
  magneto: "magnetos:",
  feather: "embanderamiento:",
};

export const runUpFaults: Outcomes["runUpFaults"] = {
  belowMin: "por debajo de su mínimo",
  over: "por encima de su máximo",
  notRead: "sin leer desde que empezó el calentamiento",
  unreadable: "no se puede juzgar",
  notDone: "sin hacer",
  leftOverMax: "la caída izquierda es muy grande",
  rightOverMax: "la caída derecha es muy grande",
  uneven: "las caídas son desiguales",
  leftNoDrop: "sin caída en el izquierdo: no va a masa, o puesta a punto",
  rightNoDrop: "sin caída en el derecho: no va a masa, o puesta a punto",
  noResponse: "la hélice no respondió",
  overMax: "se sacó muy tarde: la caída es muy grande",
  notRecovered: "las rpm no volvieron",
  spread: "las presiones de admisión difieren demasiado",
};
