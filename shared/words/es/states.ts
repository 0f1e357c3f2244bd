import type { Catalogue } from "../en/catalogue.ts";

export const posts: Catalogue["posts"] = {
  cockpit: "Cabina",
  fireGuard: "Guardia de fuego",
  groundPower: "Planta externa",
  supervisor: "Supervisor",
};

export const stages: Catalogue["stages"] = {
  plan: "Plan",
  brief: "Briefing",
  secure: "Asegurar",
  powerUp: "Revisiones de energía",
  groundPower: "Planta externa",
  starting: "Arranque",
  warmUp: "Calentamiento",
  release: "Salida",
  arrival: "Llegada",
  stopping: "Apagado de motores",
  stowing: "Recogida",
  closed: "Cerrada",
  abandoned: "Abandonada",
};

export const lives: Catalogue["lives"] = {
  waiting: "En espera",
  requested: "Pedido",
  clear: "Autorizado",
  cranking: "Arrancando",
  caught: "Prendió",
  running: "Funciona",
  stable: "Estable",
  shutDown: "Apagado",
  cooling: "Enfriando",
  fire: "Fuego",
};

export const firePlaces: Catalogue["firePlaces"] = {
  induction: "Admisión",
  exhaust: "Escape",
  nacelle: "Góndola",
  groundEquipment: "Equipo de tierra",
  notSaid: "Lugar no dicho",
};

export const voids: Catalogue["voids"] = {
  expired: "se venció su tiempo",
  epoch: "hubo un paro, un cambio de puesto o un reinicio",
  condition: "cambió algo que necesita",
  revoked: "fue retirada",
  readBackWrong: "se colacionó mal",
  stageLeft: "la sesión dejó la etapa de arranque",
};

export const caution =
  "Chockside apoya las señales de mano, el manual aprobado y las tripulaciones entrenadas; nunca los reemplaza. " +
  "Deciden las reglas locales y las personas con licencia. Un botón aquí es un mensaje, no un paro de emergencia.";
