import { pluralsOf } from "../../../shared/words/plural.ts";
import type { LivesWords } from "../en/lives.ts";

const plural = pluralsOf("es");

export const lives: LivesWords = {
  title: "Cuánto dura el equipo, en arranques",
  of: { starter: "Arrancadores", cart: "Grupos de tierra", extinguisher: "Extintores" },
  table: "Cuánto dura el equipo (CSV)",
  trendTable: "Defectos en el tiempo (CSV)",
  failsAs: {
    starter:
      "Un arrancador cuenta como averiado cuando su motor arranca después con otro. La ficha no dice por qué se cambió.",
    cart: "Un grupo se ha averiado cuando la ficha lo da de baja por roto.",
    extinguisher:
      "Un extintor se ha averiado cuando la ficha lo da de baja por roto. Uno que se gastó no se ha averiado.",
  },
  none: "Ninguno tiene un arranque en el registro.",
  counted: (lives, failures) =>
    `${lives} ${plural(lives, { one: "vida contada", other: "vidas contadas" })}; ${failures} ${plural(failures, { one: "terminó", other: "terminaron" })} en avería.`,
  few: (least) => `Muy pocas averías: una ley y su intervalo necesitan ${least}. Solo se traza lo contado.`,
  noLaw: "Estas vidas no determinan ninguna ley. Solo se traza lo contado.",
  scale: (value, low, high) =>
    `Según la ley de Weibull, el 63 % se ha averiado a los ${value} arranques (intervalo del 95 %: de ${low} a ${high}).`,
  shape: (value, low, high) => `Su forma es ${value} (de ${low} a ${high}).`,
  wears: {
    more: "Por encima de 1 con todo el intervalo: las averías son más frecuentes con la edad.",
    less: "Por debajo de 1 con todo el intervalo: las averías son menos frecuentes con la edad.",
    unknown: "El intervalo contiene el 1: no se puede decir si las averías son más frecuentes con la edad.",
  },
  chartIs: {
    counted: "Línea en escalones: contado (Kaplan y Meier).",
    fitted:
      "Línea en escalones: contado (Kaplan y Meier). Línea continua: ley de Weibull; sombreado: su intervalo del 95 %.",
  },
  inUse: "100 %",
  nobody: "0 %",
  noStarts: "0",
  mostStarts: (n) => `${n} ${plural(n, { one: "arranque", other: "arranques" })}`,
  lifeTable: (of) => `Tabla: ${of}`,
  item: "Pieza",
  startsAs: "Arranques",
  ended: "Final",
  failed: "avería",
  watched: "en uso, o dejado por otro motivo",
  more: (most) =>
    `Solo se cuentan las ${most} sesiones más recientes. Las vidas que empezaron antes son más largas de lo que parecen.`,
  defects: "¿Son sus defectos cada vez más raros?",
  defectsAre: (n, from) =>
    `${n} ${plural(n, { one: "defecto anotado", other: "defectos anotados" })} desde el primer arranque registrado, ${from}.`,
  unwatched: "Todavía no hay ningún arranque registrado; no se puede decir nada.",
  fewDefects: (least) => `Muy pocos defectos: una tendencia necesita ${least}. Solo se traza lo contado.`,
  trendIs: {
    rarer: "Los defectos son cada vez más raros.",
    moreFrequent: "Los defectos son cada vez más frecuentes.",
    none: "Ninguna tendencia se distingue del azar.",
  },
  exponent: (value, low, high) =>
    `Ley de potencia (Crow-AMSAA): exponente ${value}, intervalo del 95 % de ${low} a ${high}; por debajo de 1, más raros.`,
  laplace: (score) => `Prueba de Laplace: ${score}; más allá de 1.96 a cualquier lado es una tendencia.`,
  between: (days) => `Según esta ley, ahora hay un defecto cada ${days} días.`,
  defectChartIs: {
    counted: "Línea en escalones: defectos contados.",
    fitted: "Línea en escalones: defectos contados. Línea continua: ley de potencia.",
  },
};
