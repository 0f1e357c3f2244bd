import type { LaterWords } from "../en/later.ts";
import { air } from "./air.ts";
import { airEntry } from "./airEntry.ts";
import { board } from "./board.ts";
import { card } from "./card.ts";
import { defects, planChange } from "./changes.ts";
import { charts, past } from "./charts.ts";
import { demo } from "./demo.ts";
import { elsewhere } from "./elsewhere.ts";
import { engineTable } from "./engineTable.ts";
import { guard } from "./guard.ts";
import { figure } from "./handFigure.ts";
import { instruments } from "./instruments.ts";
import { pad } from "./pad.ts";
import { planNotes } from "./planNotes.ts";
import { rampPage } from "./rampPage.ts";
import { record } from "./record.ts";
import { remote } from "./remote.ts";
import { postsSheet, senses, sessionSheet } from "./sessionSheet.ts";
import { keypad, language, signIn } from "./signIn.ts";
import { supervisor } from "./supervisor.ts";
import { trace } from "./trace.ts";

export const weather: LaterWords["weather"] = {
  title: "Meteorología",
  wind: "Viento",
  gusts: "Rachas",
  air: "Aire",
  calm: "Calma",
  noGusts: "Sin rachas",
  none: "ninguna",
  lacks: {
    wind: "Ponga el viento",
    gusts: "Ponga las rachas, o ninguna",
    gustsBelow: "Las rachas deben superar al viento, o ninguna",
  },
  record: (wind, gusts, air) =>
    `Anotar ${wind === 0 ? "calma" : `viento ${wind} kt`}, ${gusts === null ? "sin rachas" : `rachas ${gusts}`}${air === null ? "" : `, ${air} °C`}`,
};

export const blades: LaterWords["blades"] = {
  title: "Palas contadas",
  head: "Palas pasadas",
  atLeast: (n) => `Al menos ${n}. Si hay resistencia: pare y dígalo.`,
  unit: "palas",
  enough: "suficiente",
  more: (n) => `faltan ${n}`,
  free: "Sin resistencia",
  all: (n) => `Las ${n} giradas, sin resistencia`,
  resistance: "Resistencia",
};

export const volts: LaterWords["volts"] = {
  region: "Voltios de la planta externa",
  notRead: "Voltios aún no leídos",
  batteries: "Con baterías, sin planta",
  off: "Apagada",
  offSaid: (ago) => `informado ${ago}`,
  said: (ago) => `leído ${ago}`,
  old: (ago) => `leído ${ago}: viejo, lea de nuevo`,
};

export const postsLine: LaterWords["postsLine"] = {
  region: "Lo que debe cada puesto",
  nothing: "No debe nada",
  blocks: "El arranque espera a este puesto",
  again: "Pedir otra vez",
  owes: (post, name) => (name === null ? post : `${post}: ${name}`),
};

export const screen: LaterWords["screen"] = {
  title: "Tamaño en esta pantalla",
  what: "Las teclas deben medir 22 mm de alto, pero ningún navegador sabe cuánto mide un milímetro en su pantalla. Ponga una tarjeta bancaria sobre el contorno y ajuste hasta que tenga el ancho de la tarjeta.",
  unit: "puntos",
  flat: "Ponga la tarjeta a lo largo.",
  upright: "Ponga la tarjeta de pie: la pantalla es más estrecha que su lado largo.",
  found: (mm) => `${mm} puntos por milímetro; un dispositivo igual tiene la misma cifra.`,
  card: "Tarjeta bancaria",
  keep: "Guardar este tamaño",
  usual: "Tamaño usual",
};

export const house: LaterWords["house"] = {
  title: "La casa",
  equipment: "Equipo",
  atStand: "Equipo en el puesto",
  dues: "Vencimientos",
};

export const units: LaterWords["units"] = {
  title: "Unidades",
  asRead: "Como se leyó",
  what: "Este dispositivo muestra los valores en las unidades que usted elija. El valor como se leyó está al lado entre paréntesis, o a un toque. Un instrumento se anota en su propia unidad.",
  families: {
    pressure: "Presión: aceite, combustible, frenos",
    airPressure: "Presión del aire: admisión, succión, QNH",
    temperature: "Temperatura",
    volume: "Volumen",
    mass: "Masa",
  },
};

export const atAircraft: LaterWords["atAircraft"] = {
  region: "En el avión",
  nothing: "Aquí no hay nada abierto",
  stops: (name) => `Detener ${name}`,
  keys: { hold: "Alto", cut: "Cortar todos los motores", fire: "Fuego" },
  sent: {
    hold: (name) => `El alto quedó anotado en ${name}. Dé también la señal de mano.`,
    cut: (name) => `El corte quedó anotado en ${name}. Dé también la señal de mano.`,
    fire: (name) => `El fuego quedó anotado en ${name}. Dé también la señal de mano.`,
  },
  leave: "Puede haber personas junto al avión con permiso",
  located: "Quedó anotado dónde está el fuego.",
  turning: (n) => `El motor ${n} quedó girando. Nadie ha visto parada su hélice`,
  unseen: (n) => `El motor ${n} se apagó. Nadie ha visto parada su hélice`,
  drill: (drill) => `Ejercicio abierto: ${drill}`,
  bars: "Defecto impide el arranque",
  deferred: (left) => `Defecto, aplazado ${left}`,
  defect: "Defecto",
  end: "Terminar",
  ended: "Terminado",
  endedHere: "Terminado en la página de la plataforma",
};

export const later: LaterWords = {
  air,
  airEntry,
  atAircraft,
  blades,
  board,
  card,
  charts,
  defects,
  demo,
  elsewhere,
  engineTable,
  figure,
  guard,
  house,
  instruments,
  keypad,
  language,
  pad,
  past,
  planChange,
  planNotes,
  postsLine,
  rampPage,
  record,
  remote,
  screen,
  senses,
  postsSheet,
  sessionSheet,
  signIn,
  supervisor,
  trace,
  units,
  volts,
  weather,
};
