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
  refused: (why, times) => `Rechazado ${times} veces: ${why}`,
  drill: (title, done, left, missed) =>
    `${title}: ${done} pasos hechos, ${left} dichos que no aplican, ${missed} sin marcar`,
  outOfOrder: "no en el orden de la tarjeta",
  limit: (what, n, found, allowed) => `Límite pasado, motor ${n}: ${what} ${found} s, límite ${allowed} s`,
  suffered: (what, n, found) => `Motor ${n}: ${what} ${found}`,
  within: (allowed) => `límite ${allowed}`,
  touches: (post, times) => `${post}: ${times} toques`,
  limits: {
    starterTime: "arrancador mantenido",
    oilFirst: "primera presión de aceite a los",
    oilNormal: "presión de aceite normal a los",
  },
};
