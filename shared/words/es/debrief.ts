import type { DebriefWords } from "../en/debrief.ts";

export const debrief: DebriefWords = {
  title: "Lo que hicieron",
  lead: "Contado solo por el registro, con reglas fijas. No es una nota.",
  retold: (seq, from) =>
    `Este ensayo se llevó atrás. Sus sucesos 1 a ${seq} se repiten de ${from}, donde se hicieron; ninguna línea de aquí trata de ellos.`,
  none: "Nada salió mal, y no se hizo nada que haya que contar.",
  answered: (fault, seconds, by) => `${fault}: respondido a los ${seconds} s por ${by}`,
  notAnswered: (fault) => `${fault}: nadie respondió`,
  unnecessary: (what, by) => `${what} por ${by}: nada había salido mal que lo pidiera`,
  wrongNumber: (by) => `Número equivocado repetido por ${by}`,
  refused: (why, times) => `Rechazado ${times} ×: ${why}`,
  drill: (title, done, left, missed) =>
    `${title}: ${done} pasos hechos, ${left} dichos que no aplican, ${missed} sin marcar`,
  outOfOrder: "no en el orden de la tarjeta",
  limit: (what, n, found, allowed) => `Límite pasado, motor ${n}: ${what} ${found} s, límite ${allowed} s`,
  suffered: (what, n, found) => `Motor ${n}: ${what} ${found}`,
  within: (allowed) => `límite ${allowed}`,
  touches: (post, times) => `Toques en ${post}: ${times}`,
  compared: "Al lado de las últimas veces",
  comparedLead:
    "El mismo guion y el mismo tipo, en el mismo puesto. Cada línea es de toda la tripulación, menos los toques. Ninguna es una nota.",
  comparedOf: (name, post) => `${name}, ${post}`,
  noEarlier: "Ninguna vez anterior con este guion en este puesto.",
  nobodyCompared: "No participó nadie cuyas veces anteriores usted pueda leer.",
  notCompared: "Este ensayo se llevó atrás a un momento, así que no se compara con ninguno entero.",
  measure: "Medida",
  thisRun: "Esta vez",
  answerOf: (fault) => `Respuesta a: ${fault}`,
  didNotHappen: "–",
  noAnswer: "ninguna",
  measures: {
    unnecessary: "Paradas sin causa",
    wrongNumbers: "Números equivocados repetidos",
    refused: "Rechazados",
    stepsMissed: "Pasos de procedimientos sin marcar",
    limits: "Límites pasados",
    alerts: "Alertas de algo inseguro",
    starterK: "Arrancador más caliente",
    withoutOilS: "Más tiempo sin presión de aceite",
    touches: "Toques en este puesto",
  },
  limits: {
    starterTime: "arrancador mantenido",
    oilFirst: "primera presión de aceite a los",
    oilNormal: "presión de aceite normal a los",
  },
};
