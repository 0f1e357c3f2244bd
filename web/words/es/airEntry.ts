import type { LaterWords } from "../en/later.ts";

export const airEntry: LaterWords["airEntry"] = {
  paste: "Pegar",
  reportLabel: "METAR, pegado o escrito",
  cannotPaste: "El navegador no deja pegar con esta tecla. Mantenga pulsado el campo y elija Pegar.",
  emptyReport: "Pegue el METAR más nuevo. Aquí ve lo que se leyó de él antes de enviarlo.",
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
  flashFirst: "Toque al ver el rayo. Toque otra vez al oír su trueno.",
  flashCounts: "Anotado. Cuenta como cercano hasta que oiga su trueno.",
  sinceFlash: (seconds, miles) => `${seconds} s desde el rayo: unas ${miles} mi`,
  rule: (miles, minutes) =>
    `Un rayo a menos de ${miles} mi detiene el trabajo hasta ${minutes} min después del último rayo.`,
};
