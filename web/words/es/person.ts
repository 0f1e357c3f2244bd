import type { PersonWords } from "../en/person.ts";

export const person: PersonWords = {
  pinAgain: "Su PIN otra vez",
  asideWhy: "Exceptuar una condición quita parte de la seguridad, por eso pide su PIN.",
  asideOffline:
    "Sin el servidor no se puede exceptuar nada: no se puede comprobar ningún PIN ni preguntar a nadie más. Cumpla la condición o detenga.",
  checking: "Comprobando…",
  failed: "No ha funcionado.",
};
