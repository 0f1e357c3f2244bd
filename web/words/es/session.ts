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
  notTested: "señal de prueba sin dar",
};

export const session: Text["session"] = {
  fetching: "Cargando la sesión…",
  until: (link) => `${link}. Hasta que llegue, use señales de mano y procedimientos locales.`,
};
