import type { LaterWords } from "../en/later.ts";

export const demo: LaterWords["demo"] = {
  watch: "Ver a una tripulación arrancar uno",
  be: {
    cockpit: "Ocupar la cabina",
    fireGuard: "Ser guardia de fuego",
    groundPower: "Ocupar planta externa",
    supervisor: "Ser supervisor",
  },
  what: "Es un ensayo: un avión simulado, y compañeros en los otros puestos que responden al ritmo de una persona.",
  begins: "La tripulación toma sus puestos…",
  people: "Entrar como una de las personas de la demostración",
};
