import type { MeasuredWords } from "../en/measured.ts";

export const measured: MeasuredWords = {
  title: "Medido por instrumentos",
  lead: "Cada cifra como la dijeron las personas y luego como la midió un instrumento.",
  engine: "Número",
  attempt: "Intento",
  figures: { starter: "Arrancador", volts: "Voltios mínimos", oilFirst: "Primera presión de aceite" },
  said: "dicho",
  measured: "medido",
  differ: (apart, within) => `${apart} de diferencia, más de ${within}`,
  agree: "coinciden",
};
