import type { Catalogue } from "../en/catalogue.ts";

export const reportParts: Catalogue["reportParts"] = {
  wind: "Viento",
  gust: "Rachas",
  direction: "Viento de",
  temperature: "Aire",
  dewPoint: "Punto de rocío",
  qnh: "QNH",
  observed: "Observado",
  thunder: "Tormenta",
};

export const reportFaults: Catalogue["reportFaults"] = {
  twice: (part) =>
    `${part}: está dos veces y no coincide; puede haber dos reportes. Pegue uno solo o ingrese el viento a mano.`,
  unreadable: "Esto no se puede leer como METAR. Pegue el reporte entero o ingrese el viento a mano.",
  old: (age, most) =>
    `Este reporte tiene ${age} min; pasados ${most} min es demasiado viejo. Pegue el más nuevo.`,
  impossible: (part, figure) =>
    `${part} ${figure} no puede ser. Revise el reporte o ingrese el viento a mano.`,
};

export const reportThunder: Catalogue["reportThunder"] = {
  swings: (from, to) => `gira de ${from}° a ${to}°`,
  told: "El reporte da tormenta. Cuenta como rayo cercano desde que se registra.",
};

export const lightningActs: Catalogue["lightningActs"] = {
  startNothing: "No arranque nada.",
  leaveAircraft: "No arranque nada. Salga del avión y póngase a cubierto.",
  shelter: "Póngase a cubierto y espere ahí.",
  clearOfCable: "No toque ni el cable ni la planta. Aléjese de ambos, a cubierto.",
  unplug: "Con permiso de la tripulación: apague y desenchufe. Luego aléjese del cable y de la planta.",
  clearRamp: "No autorice nada. Vea que nadie quede afuera.",
};
