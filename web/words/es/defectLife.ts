import type { DefectLifeWords } from "../en/defectLife.ts";

/** The defects of an aircraft, on its page. */
export const defectLife: DefectLifeWords = {
  title: "Defectos",
  none: "Ningún defecto abierto.",
  aircraft: "Avión",
  engine: (n) => `Motor ${n}`,
  bars: "Impide el arranque",
  barsNot: "No impide el arranque",
  deferredTo: (day) => `Aplazado hasta el ${day}`,
  deferralOver: (day) => `Aplazado hasta el ${day}: vencido, impide el arranque`,
  again: (times) =>
    `Anotado antes ${times === 1 ? "una vez" : `${times} veces`}, aquí, con las mismas palabras`,
  written: (name, when) => `Anotado por ${name}, ${when}`,
  deferred: (name, when, day, why) => `Aplazado hasta el ${day} por ${name}, ${when}: ${why}`,
  closed: (name, when) => (name === null ? `Cerrado ${when}` : `Cerrado por ${name}, ${when}`),
  session: "El arranque al que pertenece",
  closedOnes: (n) => `Cerrados (${n})`,
  write: "Anotar un defecto",
  defer: "Aplazarlo",
  close: "Cerrarlo",
  until: "Último día en que no impide el arranque",
  why: "¿Por qué puede esperar?",
  done: "¿Qué se hizo?",
  leave: "Dejarlo como está",
};
