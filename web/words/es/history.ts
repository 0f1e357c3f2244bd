import { pluralsOf } from "../../../shared/words/plural.ts";
import type { HistoryPageWords } from "../en/history.ts";

const plural = pluralsOf("es");
const starts = (n: number) => `${n} ${plural(n, { one: "arranque", other: "arranques" })}`;

export const history: HistoryPageWords = {
  aircraftTitle: (id) => `Historial de ${id}`,
  aircraftLead: (n) => `${starts(n)} de sus motores en el registro, horas del servidor en UTC`,
  engineTitle: (serial) => `Motor ${serial}`,
  fittedAt: (n, aircraft) => `Número ${n} de ${aircraft}`,
  fittedNowhere: "Ahora en ningún avión",
  hours: (hours) => `${hours} h`,
  startsOf: starts,
  register: "Ficha",
  aircraftHistory: "Historial del avión",
  save: "Tabla (CSV)",
  saveAll: "Todo, firmado",
  notes: "Lo que sus motores hacen distinto que antes",
  noNotes: "Nada destaca en los últimos arranques.",
  notesAre:
    "Calculado a partir del registro. No es una alerta y no impide nada: mire, pregunte, y anote un defecto si lo hay.",
  standing: "Lo que está pendiente ahora",
  nothingStands: "No hay ningún defecto abierto ni nada más pendiente en el avión.",
  engines: "Motores",
  noSerial: (n) => `El número ${n} no tiene número de serie en la ficha; su historial no se lleva aparte.`,
  none: "Todavía no hay ningún arranque registrado.",
  year: "Un año inventado",
  yearIs:
    "Todo en él es inventado: una tripulación programada hace unos 50 arranques de dos aviones de la demostración, y algunas piezas se desgastan. Tarda medio minuto.",
  yearMake: "Hacerlo",
  yearMaking: (made: number, of: number) => `La tripulación lo hace: ${made} de ${of || "…"}`,
  more: "Los arranques más antiguos no se muestran.",
  startsTable: "Arranques, el más reciente primero",
  day: "Día",
  engine: "Motor",
  reached: "Llegó a",
  reachedAs: { cranked: "no prendió", caught: "prendió", running: "en marcha", stable: "estable" },
  record: "Registro",
  openRecord: (day) => `Abrir el registro del ${day}`,
  starterAs: "Arrancador",
  oilAs: "Presión de aceite",
  cockpitAs: "Cabina",
  stopsAs: "Paradas y alertas",
  cleared: "sin autorización",
  stop: { hold: "alto", cut: "corte", fire: "fuego" },
  alerts: (n) => `${n} ${plural(n, { one: "alerta", other: "alertas" })}`,
  charts: "Gráficos",
  others: "Datos sin límites",
  since: {
    first: (day) => `Desde su primer arranque aquí, ${day}.`,
    moved: (day) => `Empieza de nuevo el ${day}: el motor se montó aquí.`,
    overhauled: (day) => `Empieza de nuevo el ${day}: sus horas empezaron de nuevo.`,
    otherStarter: (day) => `Empieza de nuevo el ${day}: se montó otro arrancador.`,
  },
  baseline: (n, from, to) => `Límites de sus primeros ${n} arranques, del ${from} al ${to} (sombreado).`,
  tooFew: (have, missing) =>
    `${starts(have)} con lectura: aún sin límites, ${plural(missing, { one: "falta", other: "faltan" })} ${missing}.`,
  noSpread: "Los primeros arranques dan todos lo mismo; no se pueden trazar límites.",
  notTrusted: (r, most) =>
    `Los arranques vecinos dependen unos de otros (correlación ${r}, como máximo ${most}): no se fíe de estos límites. No se toma de ellos ninguna señal.`,
  trusted: (r, most) =>
    `Los arranques vecinos son bastante independientes (correlación ${r}, como máximo ${most}).`,
  lanes: {
    starts: "Cada arranque",
    average: "Media móvil (EWMA)",
    ranges: "Cambio de un arranque al siguiente (rango móvil)",
    sums: "Desviación sumada (CUSUM): hacia arriba sobre la línea, hacia abajo bajo ella",
  },
  rules: {
    beyondLimits: "fuera de los límites",
    jump: "salto",
    average: "media fuera de sus límites",
    sum: "suma fuera de su límite",
  },
  mean: "media",
  quiet: "Ninguna señal en el último arranque.",
  signalled: (rules) => `En el último arranque: ${rules}.`,
  table: (figure) => `Tabla: ${figure}`,
  moreCharts: "Más gráficos",
  signals: "Señales",
  notRead: "sin leer",
  outOf: (read, all) => `${read} de ${all} arranques con lectura`,
};
