import type { LaterWords } from "../en/later.ts";

export const remote: LaterWords["remote"] = {
  title: "Teclas para manos ocupadas",
  what: "Un mando o teclado en este dispositivo puede dar alto y respuestas simples. Nunca colaciona, ni autoriza, ni levanta nada. Toque una de estas y pulse una vez su tecla.",
  acts: { answer: "Responder", hold: "Alto" },
  teach: { answer: "Enseñar una tecla para responder", hold: "Enseñar una tecla para alto" },
  none: "ninguna tecla enseñada",
  press: (act) =>
    `${act}: pulse ahora su tecla. Si no pasa nada, el dispositivo se queda con esa tecla: pulse otra.`,
  cannot: {
    unknown: "El dispositivo no dice qué tecla era. Pulse otra.",
    keptBack: "El panel necesita esa tecla. Pulse otra.",
    taken: "Esa tecla ya está enseñada. Pulse otra.",
  },
  stop: "No enseñar ninguna",
  forget: "Olvidar las teclas",
  gives: (answer) => `La tecla del mando responde: ${answer}`,
  touch: "El mando no puede responder a esto: toque la pantalla.",
};
