import type { Text } from "../en/text.ts";

export const worked: Text["worked"] = {
  stage: "Calculado ahora",
  engine: (n) => `Calculado para el motor ${n}`,
  aircraft: "Calculado para el avión, el aire y el orden",
  noise: "Ruido calculado",
  fewer: "Menos valores",
  advice: "Orden aconsejado, calculado",
  rests: (left) => `descansa ${left}`,
};
