import type { LaterWords } from "../en/later.ts";

export const airEntry: LaterWords["airEntry"] = {
  paste: "Pegar",
  reportLabel: "METAR, pegado o escrito",
  cannotPaste: "El navegador no dio lo copiado. Mantenga el campo y pegue ahí.",
  emptyReport: "Pegue el METAR más nuevo: lo que se lee de él queda aquí antes de enviarlo.",
  noWind: "No trae viento. Ingrese el viento a mano.",
  fromReport: "De un METAR",
  byHand: "A mano",
  send: "Enviar este reporte",
  back: "Atrás",
  variable: "variable",
  none: "sin dato",
  flashNow: "Rayo ahora",
  thunderNow: "Trueno ahora",
  flashAgain: "Otro rayo",
  distance: "Distancia conocida",
  howFar: "¿A qué distancia fue?",
  noRule: "Este tipo no tiene límite para rayos: pare según sus propias reglas.",
  noFlash: "Sin rayos cerca.",
  flashFirst: "Toque al ver el rayo y luego al oír su trueno.",
  flashCounts: "Anotado. Hasta su trueno cuenta como cercano.",
  sinceFlash: (seconds, miles) => `${seconds} s desde el rayo: unas ${miles} mi`,
  rule: (miles, minutes) =>
    `El trabajo para con un rayo a menos de ${miles} mi, y ${minutes} min después del último.`,
};
