import { equipment as shared } from "../../../shared/words/es/equipment.ts";
import type { EquipmentPageWords } from "../en/equipment.ts";

const { causes, dates } = shared;

/** The equipment in the house's register. */
export const equipment: EquipmentPageWords = {
  title: "Equipo",
  lead: "Plantas, extintores, calzas, barras de remolque y auriculares, cada uno con una etiqueta.",
  none: "Aún no hay equipo. Un supervisor agrega el primero.",
  noneHere: "Aún no hay equipo.",
  add: "Agregar equipo",
  addLead: "La etiqueta se imprime y se fija al equipo. Se escanea o se escribe en el puesto.",
  outOnes: "Fuera de servicio",
  good: "Se puede usar",
  fault: (f, day) => {
    switch (f.is) {
      case "out":
        return `${causes[f.cause]}: ${f.words}`;
      case "overdue":
        return `${dates[f.date]} ${day(f.until)}: vencido${f.bars ? ", no se debe usar" : ""}`;
      case "noDate":
        return `${dates[f.date]}: sin fecha${f.bars ? ", no se debe usar" : ""}`;
      case "ending":
        return `${dates[f.date]} ${day(f.until)}: vence pronto`;
    }
  },
  kind: "Clase",
  label: "Etiqueta",
  labelRule: "Mayúsculas, cifras y guiones, 16 como máximo, como EXT-3. Queda para siempre.",
  name: "Nombre",
  volts: "Voltios",
  continuousA: "Amperios todo el tiempo",
  peakA: "Amperios como máximo",
  size: "Calibre del cable (AWG)",
  metres: "Cable de la planta al enchufe, metros",
  parallel: "Conductores iguales en paralelo",
  internalOhm: "Ohmios dentro de la planta (puede faltar)",
  agent: "Agente",
  chargeKg: "Carga, kg",
  weighedUntil: "Pesado hasta",
  testedUntil: "Probado hasta",
  optional: "Puede faltar.",
  place: "Dónde se guarda",
  notes: "Notas",
  save: "Guardar",
  saving: "Guardando…",
  back: "Todo el equipo",
  change: "Cambiarlo",
  out: "Sacar de servicio",
  putBack: "Volver a poner en servicio",
  outWhy: "¿Qué le pasa?",
  backWhy: "¿Por qué vuelve a servir?",
  sure: "Hacerlo",
  printLabel: "Imprimir la etiqueta",
  labelOf: (id) => `Etiqueta ${id}, como código para escanear`,
  history: "Cambios",
  entered: "Ingresado",
  changed: "Cambiado",
  by: (who, when) => `${when} UTC, ${who}`,
  console: "la consola del servidor",
  atStand: "Equipo en el puesto",
  atStandWhat: "Escanee la etiqueta de cada pieza que esté aquí, o escríbala.",
  typed: "Etiqueta",
  enter: "Está aquí",
  scan: "Escanear",
  scanStop: "Dejar de escanear",
  noCamera: "No se puede usar la cámara. Escriba la etiqueta.",
  notALabel: (text) => `${text} no es una etiqueta.`,
  planned: "en el plan, etiqueta no leída",
  shownBy: (when, who) => `leída ${when} UTC por ${who}`,
  nothingHere: "Nada en el plan, y ninguna etiqueta leída.",
  allocate: "Equipo para este arranque",
  barred: "No se debe usar",
};
