import type { LaterWords } from "../en/later.ts";

export const rampPage: LaterWords["rampPage"] = {
  rehearse: "Ensayar",
  device: "Este dispositivo",
  light: "Luz",
  mine: (post) => `Usted: ${post}`,
  elsewhere: (post) => `Usted: ${post}, en otro dispositivo`,
  offered: (post) => `Se le ofrece: ${post}`,
  take: "Tomarlo",
  waitsFor: (post, what) => `${post}: ${what}`,
  starts: "Cómo fueron los arranques",
  search: "Buscar",
  history: (aircraft: string) => `Historial de ${aircraft}`,
};
