import type { Text } from "../en/text.ts";

export const worked: Text["worked"] = {
  stage: "Ahora: calculado",
  engine: (n) => `Motor ${n}: calculado`,
  aircraft: "Avión, aire, orden: calculado",
  noise: "Ruido: calculado",
  fewer: "Menos valores",
  advice: "El orden aconsejado: calculado",
  rests: (left) => `descansa ${left}`,
};
