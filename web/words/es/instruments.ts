import type { LaterWords } from "../en/later.ts";

export const instruments: LaterWords["instruments"] = {
  title: "Leído por instrumentos",
  lead: "Un instrumento no contesta ningún pedido: lea el indicador y anótelo.",
  mark: "Instrumento",
  old: (age) => `callado desde hace ${age}`,
  read: (age) => `hace ${age}`,
  person: (figure, name, age) => `${name} leyó ${figure}, hace ${age}`,
  nobody: "Nadie lo ha leído todavía",
  station: "Estación del campo",
  stationBy: (name, age) => `${name}, visto hace ${age}`,
  notGiven: "Su reporte no da viento",
  verdicts: {
    within: "dentro de los límites de viento",
    over: "sobre un límite de viento",
    stale: "demasiado viejo",
    unknown: "no se puede juzgar",
  },
  byInstrument: (figure) => `${figure}, por un instrumento`,
};
