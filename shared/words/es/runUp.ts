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
