import type { LaterWords } from "../en/later.ts";

export const engineTable: LaterWords["engineTable"] = {
  region: "Motores",
  title: "Motores en orden, tiempos contra sus límites",
  table: "Motores, tabla",
  number: "N.º",
  starter: "Arrancador",
  firstOil: (within) => `1.ª presión, ${within} s`,
  oilNormal: (within) => `Presión normal, ${within} s`,
  next: "Próximo arranque",
  inTime: "a tiempo",
  of: (time, limit) => `${time} de ${limit} s`,
  max: (limit) => `máx. ${limit} s`,
  in: (time) => `en ${time}`,
  now: "ya",
};
