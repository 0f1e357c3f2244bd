import type { LaterWords } from "../en/later.ts";

export const card: LaterWords["card"] = {
  title: "Tarjeta",
  line: (good, of) => `Tarjeta: ${good} de ${of} bien`,
  open: "Tarjeta entera",
  ofEngine: (moment, n) => `${moment}, motor ${n}`,
  moments: {
    beforeStart: "Antes de todo arranque",
    beforeEngine: "Antes del arranque",
    cranking: "Mientras giraba con arrancador",
    caught: "Al encender",
    stable: "Cuando está estable",
    beforeRelease: "Antes de la salida",
    beforeStop: "Antes de parar",
    stopped: "Después de parar",
  },
  is: { open: "sin responder", good: "bien", bad: "no está bien" },
  by: (name, ago) => `${name}, ${ago}`,
  readBy: (name) => `leído por ${name}`,
  after: (seconds, within) => `${seconds} s después de encender; debe ser en ${within} s`,
  stands: "Hace falta para la autorización",
  release: "Hace falta para la salida",
  waits: (what) => `Espera: ${what}`,
  readOut: "Leerlo en voz alta",
  readBefore: (name) => `${name} lo ha leído.`,
  back: "Volver a la tarjeta",
};
