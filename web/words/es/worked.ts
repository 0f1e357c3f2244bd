import type { Text } from "../en/text.ts";

export const worked: Text["worked"] = {
  stage: "Ahora: calculado",
  engine: (n) => `Número ${n}: calculado`,
  aircraft: "Avión, aire, orden: calculado",
  fewer: "Menos cifras",
  advice: "El orden aconsejado: calculado",
  rests: (left) => `reposo ${left}`,
};
