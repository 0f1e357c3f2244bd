import type { LaterWords } from "../en/later.ts";

export const defects: LaterWords["defects"] = {
  title: (n: number) => `Defectos: ${n}`,
  key: "Defectos",
  none: "Este avión no tiene defectos abiertos.",
  aircraft: "Avión",
  engine: (n: number) => `Motor ${n}`,
  bars: "Impide el arranque",
  barsNot: "No impide el arranque",
  by: (name: string, when: string) => `${name}, ${when}`,
  write: "Anotar un defecto",
  where: "¿Dónde está?",
  theAircraft: "El avión, ningún motor",
  what: "¿Qué está mal?",
  usual: [
    "Fuga de aceite",
    "El arrancador no engancha",
    "No se puede leer un instrumento",
    "Fuga hidráulica",
    "Llanta o freno",
  ],
  go: "Seguir",
  back: "Atrás",
  judge: (words: string) => `${words}. ¿Impide el arranque?`,
  close: "Cerrarlo",
  whyClosed: "¿Por qué se cierra?",
  usualClosed: ["Reparado y revisado", "No era un defecto", "Permitido por la lista aprobada"],
};

export const planChange: LaterWords["planChange"] = {
  key: "Cambiar el plan",
  title: "Cambiar el plan",
  lead: "Un cambio anula toda autorización y todo permiso. Todos ven el cambio.",
  power: "Energía eléctrica para el arranque",
  groundPower: "Planta externa",
  batteries: "Baterías del avión",
  why: "¿Por qué se cambia el plan?",
  usual: ["Defecto encontrado", "Meteorología", "Equipo no disponible"],
  go: "Seguir al motivo",
  same: "Este es el plan de ahora.",
  heading: "Rumbo de la nariz, grados. Dice de qué lado viene un viento fuerte",
  change: "Cambiar el plan",
};
