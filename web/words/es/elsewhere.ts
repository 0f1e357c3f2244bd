import type { LaterWords } from "../en/later.ts";

export const elsewhere: LaterWords["elsewhere"] = {
  title: (name) => `${name} está en otra pestaña`,
  what: "Esta persona está en otra pestaña de este dispositivo. Solo una pestaña puede enviar. Siga en esa pestaña, o tome el control aquí. Lo que espera por enviarse pasa a esta pestaña.",
  take: "Tomar el control aquí",
  taking: "Tomando el control…",
};
