import type { LaterWords } from "../en/later.ts";

export const air: LaterWords["air"] = {
  section: "Meteorología y rayos",
  weatherKey: "Meteorología",
  lightningKey: "Rayos",
  notRead: "Viento sin leer",
  report: "Reporte meteorológico",
  stopsFar: (miles, until, left) => `Rayo a ${miles} mi: no se trabaja hasta ${until}, quedan ${left}`,
  stopsUnknown: (until, left) => `Rayo a distancia desconocida: no se trabaja hasta ${until}, quedan ${left}`,
  wind: (knots) => `Viento ${knots} kt`,
  windFrom: (degrees, knots) => `Viento de ${degrees}°, ${knots} kt`,
  gusts: (knots) => `rachas ${knots} kt`,
  qnh: (figure) => `QNH ${figure}`,
  flash: "Rayo visto",
  flashThunder: (seconds) => `Rayo, trueno a los ${seconds} s`,
  flashFar: (miles) => `Rayo a ${miles} mi`,
};
