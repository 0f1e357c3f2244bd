import type { trace as english } from "../en/trace.ts";

export const trace: typeof english = {
  title: "Registro de los voltios por un medidor",
  open: "Anotar el registro de un medidor",
  close: "Cerrar",
  lead: "Una muestra por línea: segundos y voltios. Se juzga por los límites del tipo para los voltios en el tiempo.",
  samples: "Segundos y voltios",
  cranked: "Mientras tanto giró un motor con el arrancador",
  from: "Arrancador desde, segundos del registro",
  to: "Arrancador hasta, segundos del registro",
  ended: "El registro terminó hace tantos segundos",
  cranking: "El arranque necesita un principio antes de su fin, ambos dentro del registro.",
  ago: "Diga hace cuántos segundos terminó, de 0 a 3600.",
  give: (samples, seconds) => `Anotar ${samples} muestras, ${seconds} s`,
  notYet: "Pegue el registro",
};
