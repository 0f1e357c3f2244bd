import type { Catalogue } from "../en/catalogue.ts";

export const lightningActs: Catalogue["lightningActs"] = {
  startNothing: "No arranque nada.",
  leaveAircraft: "No arranque nada. Salga del avión y póngase a cubierto.",
  shelter: "Póngase a cubierto y espere ahí.",
  clearOfCable: "No toque ni el cable ni la planta. Aléjese de ambos, a cubierto.",
  unplug: "Con permiso de la tripulación: apague y desenchufe. Luego aléjese del cable y de la planta.",
  clearRamp: "No autorice nada. Vea que nadie quede afuera.",
};
