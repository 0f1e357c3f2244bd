import type { Catalogue } from "../en/catalogue.ts";
import { asks, choices, idle } from "./asks.ts";
import { conditions } from "./conditions.ts";
import { runUpItems } from "./runUp.ts";
import { signals } from "./signals.ts";
import { caution, firePlaces, lives, posts, stages, voids } from "./states.ts";
import { lightningActs } from "./weather.ts";

/** The sentences of a session in the Spanish of ramps in the Americas. Written by the project, not by a ramp crew. */
export const catalogue: Catalogue = {
  language: "es",
  asks,
  idle,
  choices,
  conditions,
  lightningActs,
  runUpItems,
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
    QNH: "QNH",
    "field's height": "altura del campo",
    "distance unknown": "distancia desconocida",
    "heading not planned": "rumbo no planeado",
    "direction unknown": "dirección desconocida",
    "as it swings": "según gira",
    "times that rise from one sample to the next": "tiempos que suben de una muestra a la siguiente",
    wind: "viento",
    "begun before it ended": "arranque empezado antes de terminar",
    notReportedDone: "sin reportarse hecho",
    reason: "motivo",
    defect: "el defecto",
    deferral: "su último día o sus arranques",
    none: "ninguno",
  },
  joints: { to: "a", of: "de", gust: "racha", "from behind": "de cola", across: "cruzado" },
};
