import { pluralsOf } from "../../../shared/words/plural.ts";
import type { LaterWords } from "../en/later.ts";

const plural = pluralsOf("es");

export const board: LaterWords["board"] = {
  title: "Tablero de pared",
  aircraft: "Aviones, primero los que necesitan a una persona",
  none: "No se arranca ningún avión",
  notFetched: "Motores sin cargar",
  more: (n) =>
    `${n} ${plural(n, { one: "avión más", other: "aviones más" })} fuera de la vista: vea la plataforma`,
  readFrom: (m) => `Se lee desde ${String(m).replace(".", ",")} m`,
  old: (time) => `Viejo: renovado hace ${time}`,
  never: "Aún no se ha oído nada",
};
