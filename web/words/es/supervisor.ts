import type { LaterWords } from "../en/later.ts";

export const supervisor: LaterWords["supervisor"] = {
  board: "Todas las sesiones",
  missing: "Falta para la etapa siguiente",
  before: (stage) => `Falta para terminar ${stage}`,
  rise: (n, gauge, by) => `Motor ${n}: ${gauge} sube ${by}`,
  least: (n, gauge, least) => `Motor ${n}: ${gauge} al menos ${least}`,
  standsOn: (n) => `Motor ${n}: lo que necesita su autorización`,
  wouldStandOn: (n) => `Sigue motor ${n}: lo que necesita su autorización`,
  wouldStandAfter: (n, after) =>
    `Después del motor ${after} sigue el motor ${n}: lo que necesita su autorización`,
  by: (name, time) => `${name}, hace ${time}`,
  owners: (posts) => `para ${posts}`,
  askAside: "Pedir exceptuarla",
  aside: (condition) => `Exceptuar: ${condition}`,
  asideWhat:
    "Una segunda persona en otro dispositivo debe estar de acuerdo y dar un motivo. El registro guarda los dos.",
  marks: {
    yes: "cumplida",
    no: "no cumplida",
    stale: "vieja",
    unknown: "no dicha",
    overridden: "EXCEPTUADA",
  },
  answer: "Respuesta",
  condition: "Condición",
  who: "Quién y cuándo",
  setAside: "Exceptuar…",
};
