import type { HistoryWords } from "../en/history.ts";

export const history: HistoryWords = {
  figures: {
    starterS: "Arrancador hasta prender",
    starterMeasuredS: "Arrancador, medido",
    restS: "Descanso del arrancador antes",
    attempts: "Intento",
    blades: "Palas contadas",
    prime: "Cebado",
    oilFirstS: "Tiempo hasta la primera presión de aceite",
    oilFirstMeasuredS: "Primera presión de aceite, medida",
    oilNormalS: "Tiempo hasta la presión de aceite normal",
    idleOil: "Presión de aceite en ralentí",
    idleOilReference: "Presión de aceite en ralentí, aceite igual de espeso",
    voltsExpected: "Voltios mínimos calculados",
    voltsSeen: "Voltios mínimos leídos",
    voltsMeasured: "Voltios mínimos, medidos",
    voltsDifference: "Voltios leídos menos calculados",
    fuelPressure: "Presión de combustible en ralentí",
    warmUpMin: "Calentamiento",
    airC: "Temperatura del aire",
    magnetoLeft: "Caída de magneto, izquierda",
    magnetoRight: "Caída de magneto, derecha",
    featherDrop: "Caída al poner en bandera",
    boost: "Presión de admisión en la prueba de potencia",
  },
  does: {
    starterS: { high: "necesita más tiempo de arrancador", low: "prende antes" },
    oilFirstS: {
      high: "tarda más en dar la primera presión de aceite",
      low: "tarda menos en dar la primera presión de aceite",
    },
    oilNormalS: { high: "tarda más en dar presión de aceite", low: "tarda menos en dar presión de aceite" },
    idleOilReference: {
      high: "tiene más presión de aceite en ralentí, con aceite igual de espeso,",
      low: "tiene menos presión de aceite en ralentí, con aceite igual de espeso,",
    },
    voltsDifference: {
      high: "mantiene los voltios más altos frente a los calculados",
      low: "baja más los voltios frente a los calculados",
    },
    fuelPressure: {
      high: "tiene más presión de combustible en ralentí",
      low: "tiene menos presión de combustible en ralentí",
    },
    warmUpMin: { high: "se calienta más despacio", low: "se calienta más rápido" },
    magnetoLeft: { high: "cae más con la magneto izquierda", low: "cae menos con la magneto izquierda" },
    magnetoRight: { high: "cae más con la magneto derecha", low: "cae menos con la magneto derecha" },
    featherDrop: { high: "cae más al poner en bandera", low: "cae menos al poner en bandera" },
    other: { high: "marca más", low: "marca menos" },
  },
  note: (n, does, count, from, to, found) =>
    `El número ${n} ${does} que en sus ${count} arranques del ${from} al ${to}: ${found}.`,
  atLast: (value, limit) => `${value} en el último arranque, límite ${limit}`,
  onAverage: (value, since, usual) => `${value} de media desde el ${since}, antes ${usual}`,
};
