import type { Catalogue } from "../en/catalogue.ts";
import { asks, choices, idle } from "./asks.ts";
import { conditions } from "./conditions.ts";
import { refusals } from "./refusals.ts";
import { runUpChecks, runUpFaults, runUpItems } from "./runUp.ts";
import { signals } from "./signals.ts";
import { caution, firePlaces, lives, posts, stages, voids } from "./states.ts";
import { lightningActs, reportFaults, reportParts } from "./weather.ts";

/** The sentences of a session in the Spanish of ramps in the Americas. Written by the project, not by a ramp crew. */
export const catalogue: Catalogue = {
  language: "es",
  asks,
  idle,
  choices,
  conditions,
  refusals,
  lightningActs,
  reportParts,
  reportFaults,
  runUpItems,
  runUpChecks,
  runUpFaults,
  signals,
  posts,
  observer: "Observador",
  erased: "Persona borrada {d}",
  stages,
  lives,
  firePlaces,
  voids,
  caution,
  sides: { port: "babor", starboard: "estribor", centre: "centro" },
  spans: { inboard: "interior", outboard: "exterior", middle: "medio" },
  setAside: (condition) => `${condition}: exceptuado por dos personas`,
  runUp: (what, engine) =>
    engine === null ? `Prueba de motores: ${what}` : `Prueba del motor ${engine}: ${what}`,
  missing: {
    post: (post) => `Nadie ocupa ${post}`,
    briefed: (post) => `${post} no ha confirmado el briefing`,
    check: (check) => `Revisión sin hacer o no está bien: ${check}`,
    condition: (condition) => `${condition}: no se cumple`,
    blades: (engine) => `Palas del motor ${engine} sin contar`,
    handling: (engine) => `Hay alguien en la hélice del motor ${engine}`,
    engine: (engine) => `Motor ${engine} no está estable`,
    gate: (engine, gauge) => `Motor ${engine} no ha llegado a su ${gauge}`,
    powerOff: "La planta externa sigue conectada",
    chocksOut: "Los calzos no están fuera",
    allClear: "«Todo despejado» sin contestar",
    unknown: (code) => `Algo que este programa no conoce: ${code}`,
  },
  overrideEnds: {
    late: "sin segunda persona a tiempo",
    epoch: "hubo un paro, un cambio de puesto o un reinicio",
    used: "usada",
    changed: "se halló algo más nuevo o peor",
    stageLeft: "la sesión dejó la etapa de arranque",
  },
  limits: {
    starterTime: "arrancador",
    oilFirst: "primera presión de aceite",
    oilNormal: "presión de aceite normal",
  },
  found: {
    hold: "alto",
    cut: "corte",
    fire: "fuego",
    off: "apagada",
    connecting: "conectando planta externa",
    disconnecting: "desconectando planta externa",
    inserting: "poniendo calzos",
    removing: "quitando calzos",
    released: "sueltos",
    pressure: "presión",
    resistance: "resistencia",
    noGenerator: "ningún generador",
    batteries: "baterías",
    "distance unknown": "distancia desconocida",
    "times that rise from one sample to the next": "tiempos que suben de una muestra a la siguiente",
    wind: "viento",
    "begun before it ended": "arranque empezado antes de terminar",
    notReportedDone: "sin reportarse hecho",
    reason: "motivo",
    defect: "el defecto",
    none: "ninguno",
  },
  workedThrough: "hecho hasta el final",
  joints: { to: "a", of: "de", gust: "racha" },
};
