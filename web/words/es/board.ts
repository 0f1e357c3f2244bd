import { pluralsOf } from "../../../shared/words/plural.ts";
import type { Text } from "../en/text.ts";

const plural = pluralsOf("es");

export const board: Text["board"] = {
  title: "Tablero de pared",
  aircraft: "Aeronaves, primero las que necesitan a una persona",
  none: "No se arranca ninguna aeronave",
  notFetched: "Motores no traídos",
  more: (n) =>
    `${n} ${plural(n, { one: "aeronave más", other: "aeronaves más" })} fuera de la vista: vea la plataforma`,
  old: (time) => `Viejo: renovado hace ${time}`,
  never: "Aún no se ha oído nada",
};
