import type { LaterWords } from "../en/later.ts";

export const figure: LaterWords["figure"] = {
  none: (most) => `No hay señal de mano para más de ${most}: diga el número.`,
  label: (name) => `Señal de mano: ${name}`,
  toYou: "Con la mano se ve así",
  byYou: "Usted da esto con la mano, visto de frente",
  cutsAll: "No nombra motor: vale para todos",
};
