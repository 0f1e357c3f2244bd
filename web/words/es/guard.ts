import type { LaterWords } from "../en/later.ts";

export const guard: LaterWords["guard"] = {
  region: (n) => `Estoy en motor ${n}`,
  at: (n, time) => `Estoy en motor ${n}, dicho hace ${time}.`,
  arcClear: (time) => `Arco despejado, dicho hace ${time}.`,
  arcNotClear: (time) => `Arco no despejado, dicho hace ${time}.`,
  arcUnknown: "Arco sin reportar.",
  arcUsed: (n) => `El arranque del motor ${n} usó el reporte de arco despejado.`,
  old: "Eso es viejo.",
};
