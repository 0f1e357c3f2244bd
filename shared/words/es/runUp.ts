import type { Catalogue } from "../en/catalogue.ts";

export const runUpItems: Catalogue["runUpItems"] = {
  powerManifold: "presión de admisión a las rpm comunes",
  powerRpm: "rpm a esa presión",
  magnetoBoth: "rpm con ambos magnetos",
  magnetoLeft: "rpm con el magneto izquierdo",
  magnetoRight: "rpm con el magneto derecho",
  featherBefore: "rpm antes de embanderar",
  featherLowest: "rpm más bajas, botón de bandera halado",
  featherAfter: "rpm después de embanderar",
};

export const runUpChecks: Catalogue["runUpChecks"] = {
  power: "potencia:",
  magneto: "magnetos:",
  feather: "embanderamiento:",
};

export const runUpFaults: Catalogue["runUpFaults"] = {
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
