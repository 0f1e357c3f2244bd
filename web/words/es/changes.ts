import type { Text } from "../en/text.ts";

export const defects: Text["defects"] = {
  title: (n: number) => `Fallas: ${n}`,
  key: "Fallas",
  none: "Este avión no tiene fallas abiertas anotadas.",
  aircraft: "Avión",
  engine: (n: number) => `Número ${n}`,
  bars: "Impide arrancar",
  barsNot: "No impide arrancar",
  by: (name: string, when: string) => `${name}, ${when}`,
  write: "Anotar una falla",
  where: "¿Dónde está?",
  theAircraft: "El avión, ningún motor",
  what: "¿Qué está mal?",
  usual: [
    "Fuga de aceite",
    "El arranque no engancha",
    "No se puede leer un instrumento",
    "Fuga hidráulica",
    "Llanta o freno",
  ],
  go: "Seguir",
  back: "Atrás",
  judge: (words: string) => `${words}. ¿Impide arrancar?`,
  close: "Cerrarla",
  whyClosed: "¿Por qué se cierra?",
  usualClosed: ["Reparada y revisada", "No era una falla", "Permitida por la lista aprobada"],
};

export const planChange: Text["planChange"] = {
  key: "Cambiar el plan",
  title: "Cambiar el plan",
  lead: "Un cambio anula toda autorización y permiso dado, y todos lo ven.",
  power: "Energía eléctrica para el arranque",
  groundPower: "Planta externa",
  batteries: "Baterías del avión",
  why: "¿Por qué se cambia el plan?",
  usual: ["Falla encontrada", "Tiempo", "Equipo no disponible"],
  go: "Seguir al motivo",
  same: "Este es el plan como está.",
  change: "Cambiar el plan",
};
