import type { Outcomes } from "../en/outcomes.ts";

export const reportParts: Outcomes["reportParts"] = {
  wind: "Viento",
  gust: "Rachas",
  direction: "Viento de",
  temperature: "Aire",
  dewPoint: "Punto de rocío",
  qnh: "QNH",
  observed: "Observado",
  thunder: "Tormenta",
};

export const reportFaults: Outcomes["reportFaults"] = {
  twice: (part) =>
    `${part}: está dos veces y no coincide; puede haber dos reportes. Pegue uno solo o ingrese el viento a mano.`,
  unreadable: "Esto no se puede leer como METAR. Pegue el reporte entero o ingrese el viento a mano.",
  old: (age, most) =>
    `Este reporte tiene ${age} min; pasados ${most} min es demasiado viejo. Pegue el más nuevo.`,
  impossible: (part, figure) =>
    `${part} ${figure} no puede ser. Revise el reporte o ingrese el viento a mano.`,
};

export const reportThunder: Outcomes["reportThunder"] = {
  swings: (from, to) => `gira de ${from}° a ${to}°`,
  told: "El reporte da tormenta. Cuenta como rayo cercano desde que se registra.",
};
