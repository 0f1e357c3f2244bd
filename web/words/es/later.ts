import type { LaterWords } from "../en/later.ts";
import { airEntry } from "./airEntry.ts";
import { board } from "./board.ts";
import { card } from "./card.ts";
import { defects, planChange } from "./changes.ts";
import { charts, past } from "./charts.ts";
import { record } from "./record.ts";
import { remote } from "./remote.ts";

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
    gustsBelow: "Las rachas superan al viento, o ninguna",
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
  resistance: "Resistencia",
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

export const units: LaterWords["units"] = {
  title: "Unidades",
  asRead: "Como se leyó",
  what: "Los valores se muestran en las unidades que usted elija, en este dispositivo. El valor como se leyó va detrás entre paréntesis, o a un toque. Los instrumentos se anotan y los límites se guardan en su propia unidad.",
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
  nothing: "Aquí no hay nada vigente",
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
  defect: "Defecto",
  end: "Terminar",
  ended: "Terminado",
  endedHere: "Terminado en la página de la plataforma",
};

export const later: LaterWords = {
  airEntry,
  atAircraft,
  blades,
  board,
  card,
  charts,
  defects,
  past,
  planChange,
  record,
  remote,
  screen,
  units,
  weather,
};
