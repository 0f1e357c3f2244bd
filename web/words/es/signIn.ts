import type { LaterWords } from "../en/later.ts";

export const signIn: LaterWords["signIn"] = {
  lead: "Arrancar motores juntos: cabina, guardia de fuego, planta externa, supervisor.",
  title: "Entrar",
  handle: "Alias",
  pin: "PIN",
  code: "Código de sesión, si le dieron uno",
  enter: "Entrar",
  entering: "Entrando…",
  enrol: "Inscribir este dispositivo",
  failed: "No funcionó.",
  demo: "Demostración",
  demoLead:
    "Este servidor tiene personas y aviones inventados y PIN a la vista. No es para un arranque real. Toque un nombre para entrar como esa persona; cada ventana de este navegador puede ser otra.",
};

export const language: LaterWords["language"] = {
  title: "Idioma",
  failed: "No se pudo cargar este idioma. Intente de nuevo cuando haya red.",
};

export const keypad: LaterWords["keypad"] = { clear: "Borrar", back: "Atrás" };
