import type { StandByWords } from "../en/standBy.ts";

export const standBy: StandByWords = {
  region: (n) => `Guardia en motor ${n}`,
  stay: (n) => `Quédese en motor ${n}.`,
  watch: (n) => `Quédese en motor ${n} hasta ver parada su hélice.`,
  leave: (n) => `Puede dejar motor ${n}.`,
  out: "Salida",
  outboard: {
    port: "Pasando la punta del ala de babor, delante del ala",
    starboard: "Pasando la punta del ala de estribor, delante del ala",
  },
  ahead: (closed) => `Recto hacia delante. El motor ${closed} cierra el paso a la punta del ala`,
  next: "Después",
  goTo: (n) => `Vaya al motor ${n} cuando lo pidan.`,
  goAround: (n, around) => `Luego motor ${n}: rodee el motor ${around}, que gira.`,
  noNext: "Ningún otro motor del orden espera arranque.",
  watchNext: (n) => `Después mire la hélice del motor ${n}.`,
  allStill: "Todas las hélices se vieron paradas.",
  for: (time) => `desde hace ${time}`,
  toWheels: "A los calzos",
  toCart: "A la planta",
  arcClear: "Arco despejado",
  arcNotClear: "Arco no despejado",
  leaving: (n) => `Dejo motor ${n}`,
};
