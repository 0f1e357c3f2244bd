import { pluralsOf } from "../../../shared/words/plural.ts";
import type { Text } from "../en/text.ts";

const plural = pluralsOf("es");
const NUMBERS = ["cero", "una", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve"];

export const connection: Text["connection"] = {
  never: "nunca oído",
  heard: (time) => `oído por última vez hace ${time}`,
  connecting: "Conectando",
  linked: "Enlazado",
  notRecording: "No se puede registrar nada",
  notRecordingAdvice: "No se puede registrar nada. Alto, y use señales de mano.",
  stopsStillHeard: "Un alto, corte o fuego aún llega a los otros paneles.",
  silent: (heard) => `En silencio, ${heard}`,
  offline: (heard) => `Sin red, ${heard}`,
  signedOut: "Fuera de sesión",
  tooOld: "Este panel es muy viejo: recargue",
  waiting: (n) => `${NUMBERS[n] ?? n} ${plural(n, { one: "señal en espera", other: "señales en espera" })}`,
  stale: (link, waiting) =>
    `${link}${waiting === null ? "" : `; ${waiting}`}. Alto. Lo que ve puede ser viejo: use señales de mano. Alto, corte y fuego se guardan y salen cuando el servidor responda.`,
  postUnknown: "desconocido",
  postLinked: "enlazado",
  postNot: "sin conexión",
  postSilent: (time) => `en silencio ${time}`,
  nobody: "nadie",
  offered: "se lo ofrecen a usted",
  over: "sesión terminada",
  free: "toque para tomarlo",
};

export const session: Text["session"] = {
  fetching: "Cargando la sesión…",
  until: (link) => `${link}. Hasta que llegue, use señales de mano y procedimientos locales.`,
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

export const supervisor: Text["supervisor"] = {
  board: "Todas las sesiones",
  missing: "Falta para la etapa siguiente",
  before: (stage) => `Falta para terminar ${stage}`,
  rise: (n, gauge, by) => `Motor ${n}: ${gauge} sube ${by}`,
  least: (n, gauge, least) => `Motor ${n}: ${gauge} al menos ${least}`,
  standsOn: (n) => `Motor ${n}: lo que necesita su autorización`,
  wouldStandOn: (n) => `Sigue motor ${n}: lo que necesita su autorización`,
  wouldStandAfter: (n, after) =>
    `Después del motor ${after} sigue el motor ${n}: lo que necesita su autorización`,
  by: (name, time) => `${name}, hace ${time}`,
  owners: (posts) => `para ${posts}`,
  askAside: "Pedir exceptuarla",
  aside: (condition) => `Exceptuar: ${condition}`,
  asideWhat:
    "Una segunda persona en otro dispositivo debe estar de acuerdo y dar un motivo. El registro guarda los dos.",
  marks: {
    yes: "cumplida",
    no: "no cumplida",
    stale: "vieja",
    unknown: "no dicha",
    overridden: "EXCEPTUADA",
  },
  answer: "Respuesta",
  condition: "Condición",
  who: "Quién y cuándo",
  setAside: "Exceptuar…",
};

export const senses: Text["senses"] = {
  notTested: "señal de prueba sin dar",
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
