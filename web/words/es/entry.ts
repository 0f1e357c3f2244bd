import type { Text } from "../en/text.ts";

export const signIn: Text["signIn"] = {
  lead: "Arrancar motores juntos: cabina, guardia de fuego, planta externa, supervisor.",
  title: "Entrar",
  handle: "Usuario",
  pin: "PIN",
  code: "Código de sesión, si le dieron uno",
  enter: "Entrar",
  entering: "Entrando…",
  enrol: "Dar de alta este dispositivo",
  noServer: "El servidor no responde. Revise la red de este dispositivo.",
  failed: "No funcionó.",
  demo: "Demostración",
  demoLead:
    "Este servidor tiene personas y aviones inventados y PIN a la vista. No es para un arranque real. Toque un nombre para entrar como esa persona; cada ventana de este navegador puede ser otra.",
};

export const language: Text["language"] = {
  title: "Idioma",
  failed: "No se pudo traer este idioma. Intente de nuevo cuando haya red.",
};

export const keypad: Text["keypad"] = { clear: "Borrar", back: "Atrás" };
