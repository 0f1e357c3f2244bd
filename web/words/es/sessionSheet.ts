import type { LaterWords } from "../en/later.ts";

export const sessionSheet: LaterWords["sessionSheet"] = {
  sheet: (aircraft) => `${aircraft}: puestos y sesión`,
  joinTitle: "Unirse desde otro dispositivo",
  joinCode: (code) => `Unirse con el código ${code}`,
  drawing: "Dibujando el código…",
  record: "Registro",
  printBrief: "Imprimir briefing",
  printRecord: "Imprimir registro",
  abandon: "Abandonar sesión",
  abandonTitle: "Abandonar esta sesión",
  abandonWhy: "¿Por qué se abandona?",
  abandonDo: "Abandonar",
  abandonReasons: {
    weather: "Meteorología",
    defect: "Defecto encontrado",
    crew: "Tripulación no disponible",
  },
};

export const senses: LaterWords["senses"] = {
  later: "Más tarde",
  region: "Señal de prueba",
  played: "Tres tonos. ¿Los oyó o los sintió?",
  ask: "¿Oye o siente este dispositivo en medio del ruido?",
  vibrates: "También vibra, si puede.",
  noVibration: "Este dispositivo no puede vibrar.",
  louder: "Si no: suba el volumen, quite el silencio y pruebe otra vez.",
  again: "Probar otra vez",
  test: "Señal de prueba",
  reached: "Lo oigo o lo siento",
  notReached: "No lo oigo ni lo siento",
  battery: (percent) => `Batería ${percent} %: cargue este dispositivo o pase el puesto a otro.`,
  notLasting: "Las señales sin enviar no se guardan en este dispositivo: no cierre ni recargue esta pestaña.",
  dark: "La pantalla puede apagarse: este dispositivo no la mantiene encendida.",
  noTone: "Aquí no oye ningún tono: mire la pantalla.",
  soundOff: "El sonido está apagado hasta que toque la pantalla.",
};

/** The sheet of the posts. */
export const postsSheet: LaterWords["postsSheet"] = {
  reasons: {
    silent: "En silencio, y no se le ve en el puesto",
    called: "Lo llamaron a otra parte",
    device: "Dispositivo perdido o dañado",
  },
  vacateWhy: (name, post) => `Quitar a ${name} de ${post}: ¿por qué?`,
  vacate: "Quitar del puesto",
  briefed: (name) => `${name}, con briefing`,
  notBriefed: (name) => `${name}, sin briefing`,
  vacant: "vacante",
  planned: (name) => `previsto: ${name}`,
  offeredTo: (name) => `ofrecido a ${name}`,
  takeThis: (post) => `Tomar ${post}`,
  move: "Traerlo a este dispositivo",
  accept: (post) => `Aceptar ${post}`,
  handOver: "Entregar",
  leave: "Dejar el puesto",
  handOverTo: (post) => `Entregar ${post} a`,
};
