import { pluralsOf } from "../../../shared/words/plural.ts";
import type { LaterWords } from "../en/later.ts";

const plural = pluralsOf("es");

export const record: LaterWords["record"] = {
  title: "Registro",
  titleOf: (aircraft) => `Registro: ${aircraft}`,
  count: (n) => `${n} ${plural(n, { one: "evento", other: "eventos" })}, horas del servidor en UTC`,
  print: "Imprimir, corto (PDF)",
  printFull: "Imprimir, completo (PDF)",
  forms: { ndjson: "Evidencia (NDJSON)", json: "JSON", csv: "Tabla (CSV)" },
  session: "Ir a la sesión",
  history: "Historial del avión",
  exchangeChart: "Diagrama de secuencia de mensajes",
  exchangeRegion: "Secuencia de mensajes",
};
