import { FAULTS, type FaultName } from "../../../shared/types/faultText.ts";
import type { Phrase } from "../../../shared/words/piece.ts";

/** Faults that knowledge of the trade finds, in Spanish, with the same places. */
const SPANISH: Readonly<Record<FaultName, string>> = {
  leastAboveMost: "el mínimo, {1}, es mayor que el máximo, {2}",
  normalReversed: "lo normal empieza en {1}, más alto que su fin en {2}",
  normalBelowLeast: "lo normal está en {1}, por debajo del mínimo, {2}",
  normalAboveMost: "lo normal está en {1}, por encima del máximo, {2}",
  offScale: "{1} queda fuera de la escala, que va de {2} a {3}",
  scaleReversed: "la escala empieza en {1} y debe terminar más arriba, no en {2}",
  stepTooLarge: "un paso de {1} es mayor que toda la escala, {2}",
  notPressure: "una presión se lee en psi, kPa, bar, inHg o hPa, no en {1}",
  notTemperature: "una temperatura se lee en degC o degF, no en {1}",
  notUnit: "se debe leer en {1}, no en {2}",
  notPositive: "debe ser mayor que cero, no {1}",
  escalatesEarly: "el aviso a los {1} s debe venir después del recordatorio a los {2} s",
  clearanceTooShort: "una autorización de {1} s termina antes de que venza su colación, a los {2} s",
  tooShortToAct: "{1} s es muy poco para que una persona actúe: al menos {2} s",
  stepsTooClose: "{1} s después del paso anterior es muy poco para llegar a la pantalla: al menos {2} s",
  gateOffScale: "ningún indicador lo alcanza: {1} queda fuera de la escala, de {2} a {3}",
  gateAboveMost: "ningún motor puede alcanzarlo: {1} es mayor que el máximo del indicador, {2}",
  riseTooLarge: "ningún indicador lo muestra: una subida de {1} en una escala de {2}",
  dropTooSmall: "ningún indicador lo muestra: una caída de {1} en un indicador con pasos de {2}",
  pressureAboveNormal: "{1} es mayor que la presión normal más alta del indicador, {2}",
  propellersOverlap: "las hélices {1} y {2} se tocan: a {3} m una de otra, {4} m de diámetro",
  offTheWing: "el motor {1} está a {2} m del eje, fuera del ala de {3} m de punta a punta",
  aheadOfNose: "queda {1} m por delante de la nariz",
  aftOfTail: "queda {1} m detrás de la nariz, más allá de la cola a {2} m",
  trackBeyondSpan: "las ruedas están a {1} m entre sí, más que el ala de {2} m de punta a punta",
  besideWing: "queda a {1} m del eje, fuera del ala de {2} m de punta a punta",
  unitWithoutFigure: "la unidad cambió de {1} a {2} y el valor siguió en {3}",
  scaleUnitWithoutFigures: "la unidad cambió de {1} a {2} y los valores siguieron iguales",
  ladderTooHot: "la escala de uso permite {1} K, más que el máximo, {2} K",
  batteryNotRested:
    "con {1} V una batería de {2} celdas no ha reposado o tiene una celda muerta: no dice su carga",
  gravityImpossible: "ningún ácido tiene la densidad {1}: no dice la carga",
  noElectrolyte: "el ácido de ninguna batería es líquido a {1} {2}",
  nickelTellsNothing: "los voltios de una batería de níquel-cadmio no dicen su carga: quite la revisión",
  batteryNoEnd: "dé el mínimo y el máximo: sin los dos no se puede calcular la carga de la batería",
  nobodyAsked: "en la etapa {1} no se pide ninguna revisión a nadie",
  listedTwice: "{1} está dos veces en la lista",
  noGenerator: "generatorsCarry nunca se cumple: ningún motor del orden usual mueve un generador",
  inboardAlone:
    "inboardStopped no deja ningún motor en marcha: el orden usual solo arranca los que están junto a las ruedas",
  attemptsAlone:
    "dé el número de intentos y ponga en la lista la condición attemptsLeft, o ninguno de los dos",
  primeGauge: "ningún indicador de temperatura de cada motor se llama {1}",
  inventedFigure: "inventado: dé el valor del manual con su página",
  anotherTypesFigure: "de otro tipo: dé el valor propio de este tipo con su página",
  noSource: "hace falta una fuente: el manual y su página, o quién lo dice",
  farFromPublished: "{1} está lejos de todo valor publicado, de {2} a {3} ({4}): mire otra vez en el manual",
  startingBelow: "la banda al girar con arrancador empieza en {1} V, más que el mínimo estable, {2} V",
};

export const tradeFaults: readonly Phrase[] = (Object.keys(SPANISH) as FaultName[]).map((name) => [
  FAULTS[name],
  SPANISH[name],
]);
