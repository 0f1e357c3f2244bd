import { pluralsOf } from "../../../shared/words/plural.ts";
import type { SearchWords } from "../en/search.ts";

const plural = pluralsOf("es");

export const search: SearchWords = {
  title: "Buscar",
  lead: "Todo lo escrito en los registros, horas del servidor en UTC. Los ensayos no se incluyen.",
  words: "Palabras, o cómo empiezan",
  narrow: "Acotar",
  kind: "Clase",
  ofAircraft: "Avión",
  from: "Desde el día",
  to: "Hasta el día",
  any: "cualquiera",
  search: "Buscar",
  found: "Lo encontrado, lo más reciente primero",
  none: "No se encontró nada.",
  more: "Mostrar más",
  unread: (n) =>
    `A la búsqueda le faltan por leer ${n} ${plural(n, { one: "sesión", other: "sesiones" })}: dentro de un rato puede encontrar más.`,
  kinds: {
    plan: "Plan",
    post: "Puesto tomado",
    note: "Nota",
    stop: "Parada",
    reason: "Motivo",
    refusal: "Rechazo",
    defect: "Defecto",
    drill: "Fin de un procedimiento",
  },
  engineOf: (n, aircraft) => `Número ${n} de ${aircraft}`,
  record: "Registro",
  openRecord: (aircraft, day) => `Abrir el registro de ${aircraft}, ${day}`,
  aircraft: "Avión",
  openAircraft: (aircraft) => `Abrir la página de ${aircraft}`,
};
