import type { Text } from "../en/text.ts";

export const plan: Text["plan"] = {
  region: "El avión",
  port: "BABOR",
  starboard: "ESTRIBOR",
  guard: "Guardia",
  engine: (n, state) => `Motor ${n}: ${state}`,
  nose: "Dibujado como usted mira la nariz",
  cockpit: "Dibujado como usted va sentado, mirando adelante",
  tail: "Dibujado como usted mira la cola, desde atrás",
  forward: "Dibujado mirando adelante",
  turnToTail: "Estoy detrás de la cola",
  turnToNose: "Estoy frente a la nariz",
  oil: (time) => `aceite ${time}`,
  unseen: "sin ver parada",
};

export const title: Text["title"] = {
  rehearsal: "ENSAYO",
  partner: "simulado",
  aircraft: "Avión",
  stage: (step) => `Etapa ${step}`,
  step: (step, of) => `${step}/${of}`,
  posts: "Puestos y sesión",
  vacant: "vacante",
  clock: "Servidor, UTC",
};

export const options: Text["options"] = {
  head: (n, place, state) => `Motor ${n}, ${place}: ${state}`,
  close: "Cerrar",
  report: "Reportar",
  seen: "Usted vio la señal de mano",
  gauge: "Leer un instrumento",
  drill: "Abrir un procedimiento",
  danger: "Peligro",
  own: { revokeClearance: "Retirar la autorización", guardAway: "Dejo este motor" },
  early: (report) => `${report}, antes de su turno`,
};

export const checks: Text["checks"] = {
  title: "Revisiones de esta etapa",
  done: (done, of) => `Revisiones de esta etapa: ${done} de ${of} bien`,
  open: "sin hacer",
  good: "bien",
  bad: "no está bien",
};

export const ground: Text["ground"] = {
  title: "También puede enviar",
  volts: "Voltios otra vez",
  chocks: "Preguntar: ¿calzos fuera?",
  connect: "Pedir conectar",
  disconnect: "Pedir desconectar",
};

export const posts: Text["posts"] = {
  offered: "Le ofrecen un puesto",
  take: "Tomar un puesto",
};
