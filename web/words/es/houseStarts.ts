import { pluralsOf } from "../../../shared/words/plural.ts";
import type { HouseStartsWords } from "../en/houseStarts.ts";

const plural = pluralsOf("es");
const starts = (n: number) => `${n} ${plural(n, { one: "arranque", other: "arranques" })}`;
const sessions = (n: number) => `${n} ${plural(n, { one: "sesión", other: "sesiones" })}`;

export const houseStarts: HouseStartsWords = {
  title: "Cómo fueron los arranques",
  lead: (n, of, from) => `${starts(n)} en ${sessions(of)}, con plan desde el ${from}, UTC`,
  what: "Un arranque es una vez que se conecta un arrancador. Los regresos y los ensayos no se cuentan.",
  unstarted: (n) =>
    `En ${sessions(n)} no se conectó ningún arrancador. Sus altos, rechazos y alertas también se cuentan.`,
  few: (least) =>
    `Muy pocos arranques: para dar un valor por arranque hacen falta ${least}. Solo hay recuentos.`,
  more: (most) =>
    `Solo se cuentan las ${most} sesiones más recientes. Faltan las más antiguas de estas semanas.`,
  span: "Desde cuándo",
  weeks: (n) => `${n} semanas`,
  table: "Tabla (CSV)",
  none: "Nada que contar.",
  week: "Semana del",
  startsAs: "Arranques",
  caught: "Prendió",
  notStarted: "Sin arranque",
  byWeek: "Arranques por semana",
  byPost: "Qué puestos dan el alto o reciben un rechazo",
  post: "Puesto",
  holds: "Altos",
  held: "Parado, min",
  refused: "Rechazos",
  byHold: "Por qué se dio el alto",
  reason: "Motivo",
  noReason: "Sin motivo escrito",
  silent: (posts) => `Sin noticias: ${posts}`,
  times: "Veces",
  byEquipment: "Qué retrasa los arranques con cada equipo",
  equipmentIs:
    "Altos y rechazos de los arranques en que se usó una pieza, primero la que más tiene por arranque. No es necesariamente la causa.",
  piece: "Pieza",
  byCondition: "Qué no se cumplía",
  condition: "Condición",
  byRefusal: "Por qué se rechazó algo",
  byAlert: "Alertas",
  alert: "Alerta",
  perStart: "Por arranque",
  shelved: "Apartada",
  brief: "Breve",
  nuisance: "Molesta",
  alertsAre: (raised, nuisance) => `${raised} alertas, ${nuisance} de ellas molestas.`,
  alertsPerStart: (raised, nuisance) => `${raised} alertas por arranque, ${nuisance} de ellas molestas.`,
  nuisanceIs: (seconds) =>
    `Molesta, según ISA-18.2: un puesto apartó la alerta, o acabó en menos de ${seconds} s y nadie hizo más que verla (breve).`,
  byTouch: "Toques para decir que hay alguien",
  touchesAre: "Contados desde que se conecta un arrancador hasta la vez siguiente.",
  engine: "Motor",
  place: (n, aircraft) => `número ${n} de ${aircraft}`,
  touches: "Toques",
};
