import type { Outcomes } from "../en/outcomes.ts";
import { refusals } from "./refusals.ts";
import { runUpChecks, runUpFaults } from "./runUpFaults.ts";
import { reportFaults, reportParts, reportThunder } from "./weatherReport.ts";

export const outcomes: Outcomes = {
  refusals,
  reportParts,
  reportFaults,
  reportThunder,
  runUpChecks,
  runUpFaults,
  runUp: (what, engine) =>
    engine === null ? `Prueba de motores: ${what}` : `Prueba del motor ${engine}: ${what}`,
  missing: {
    post: (post) => `Nadie ocupa ${post}`,
    briefed: (post) => `${post} no ha confirmado el briefing`,
    card: (item) => `Punto de la tarjeta sin responder o no está bien: ${item}`,
    check: (check) => `Revisión sin hacer o no está bien: ${check}`,
    condition: (condition) => `${condition}: no se cumple`,
    blades: (engine) => `Palas del motor ${engine} sin contar`,
    handling: (engine) => `Hay alguien en la hélice del motor ${engine}`,
    engine: (engine) => `Motor ${engine} no está estable`,
    stopped: (engine) => `Motor ${engine} sigue girando`,
    still: (engine) => `Hélice del motor ${engine} sin ver parada`,
    remark: (engine) => `Sin escribir por qué se apagó caliente el motor ${engine}`,
    gate: (engine, gauge) => `Motor ${engine} no ha llegado a su ${gauge}`,
    powerOff: "La planta externa sigue conectada",
    chocksOut: "Los calzos no están fuera",
    allClear: "«Todo despejado» sin contestar",
    onStand: "El avión no está en su posición",
    switchesOff: "Interruptores sin comprobar apagados",
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
  workedThrough: "hecho hasta el final",
  wasASlip: "el fuego se reportó por error",
};
