import type { RegisterWords } from "../en/register.ts";

const given = (value: string | number | null) => value ?? "nada";
const from = (before: string | number | null, after: string | number | null) =>
  before === null ? `${given(after)}` : `${given(before)} → ${given(after)}`;

export const register: RegisterWords = {
  title: "Aviones",
  lead: "Lo que lleva montado cada uno y si se puede planear su arranque.",
  none: "Todavía no hay aviones. Un supervisor agrega el primero.",
  noneHere: "Todavía no hay aviones.",
  add: "Agregar un avión",
  addTitle: "Agregar un avión",
  addLead: "Dé la matrícula, el tipo y un nombre. Lo demás puede venir después.",
  noType:
    "Todavía no hay ningún tipo de avión aprobado. Un supervisor lo escribe según el manual y otro lo aprueba; entonces un avión puede usarlo.",
  toTypes: "Tipos de avión",
  retiredOnes: "Retirados",
  mayStart: "Se puede planear",
  bar: (bar) => {
    switch (bar.is) {
      case "retired":
        return "Retirado: sigue en el registro y no se planea";
      case "noneApproved":
        return "No se puede planear: ninguna versión de su tipo está aprobada";
      case "notApproved":
        return `No se puede planear: la versión ${bar.version} de su tipo no está aprobada, la ${bar.newest} sí`;
      case "superseded":
        return `No se puede planear: está aprobada la versión ${bar.newest} de su tipo y este avión está en la ${bar.version}`;
    }
  },
  cure: (bar) => {
    switch (bar.is) {
      case "retired":
        return "Un supervisor puede devolverlo al servicio.";
      case "noneApproved":
        return "Un segundo supervisor aprueba una versión del tipo.";
      case "notApproved":
      case "superseded":
        return "Un supervisor mira lo que cambia y luego pasa el avión.";
    }
  },
  registration: "Matrícula",
  registrationRule: "No cambia nunca: el registro del avión se guarda con ella.",
  name: "Nombre",
  type: "Tipo",
  chooseType: "Elija el tipo",
  onVersion: (name, version) => `${name}, versión ${version}`,
  stand: "Puesto habitual",
  noStand: "Sin puesto habitual",
  notes: "Notas",
  fitted: "Lo que lleva montado",
  engine: (n) => `Número ${n}`,
  engineSerial: "Motor, número de serie",
  engineHours: "Motor, horas",
  propellerSerial: "Hélice, número de serie",
  propellerHours: "Hélice, horas",
  starter: "Arrancador",
  engineAs: "Motor",
  propellerAs: "Hélice",
  unknown: "sin anotar",
  hours: (h) => `${h} h`,
  noFigure: "Hace falta una cifra, como 1240.5, o nada",
  back: "Todos los aviones",
  change: "Cambiarlo",
  changeTitle: (id) => `Cambiar ${id}`,
  save: "Guardar",
  saving: "Guardando…",
  leave: "Dejarlo como está",
  reason: "Motivo (hace falta para menos horas)",
  whatChanges: "Ver lo que cambia",
  moveTo: (version) => `Pasar a la versión ${version}`,
  moveSure: "Toque otra vez para pasarlo",
  enterHours: "Anotar horas",
  hoursTitle: (id) => `Horas de ${id}`,
  hoursLead:
    "Anote las horas de las bitácoras después del vuelo. Las horas no pueden bajar. Un supervisor las corrige en Cambiarlo.",
  addToAll: "Horas voladas, para sumar a cada parte",
  addThem: "Sumar a todas",
  was: (h) => (h === null ? "no estaban anotadas" : `eran ${h} h`),
  retire: "Retirarlo",
  takeBack: "Devolverlo al servicio",
  retireWhy: "¿Por qué se retira?",
  takeBackWhy: "¿Por qué vuelve?",
  sure: "Hacerlo",
  history: "Cambios",
  starts: "Arranques y motores",
  engineHistory: (serial: string) => `Historial del motor ${serial}`,
  entered: "Anotado",
  by: (who, when) => `${when} UTC, ${who}`,
  programs: { program: "con el programa", console: "la consola del servidor" },
  changed: (c) => {
    switch (c.is) {
      case "retired":
        return "Retirado";
      case "takenBack":
        return "Devuelto al servicio";
      case "name":
        return `Nombre: ${from(c.before, c.after)}`;
      case "type":
        return `Tipo y versión: ${from(c.before, c.after)}`;
      case "stand":
        return `Puesto habitual: ${from(c.before, c.after)}`;
      case "notes":
        return "Notas";
      case "engine":
        return `Motor ${c.n}: ${from(c.before, c.after)}`;
      case "propeller":
        return `Hélice ${c.n}: ${from(c.before, c.after)}`;
      case "starter":
        return `Arrancador ${c.n}: ${from(c.before, c.after)}`;
      case "engineHours":
        return `Horas del motor ${c.n}: ${from(c.before, c.after)}`;
      case "propellerHours":
        return `Horas de la hélice ${c.n}: ${from(c.before, c.after)}`;
    }
  },
  changedNothing: "Nada",
};
