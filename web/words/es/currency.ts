import type { CurrencyWords } from "../en/currency.ts";

/** What people must keep up. */
export const currency: CurrencyWords = {
  title: "Vigencias de las personas",
  lead: "Lo que cada persona debe mantener, como instrucción de tipo, de fuego y actividad reciente.",
  none: "La casa aún no lleva ninguna.",
  add: "Agregar una vigencia",
  name: "Nombre",
  recency: "Días que vale un arranque en el puesto (puede faltar)",
  needs: { bars: "Vencida impide", warns: "Vencida avisa", not: "No hace falta" },
  byDate: "Una fecha de fin por persona",
  byRecency: (days) => `Un arranque en el puesto vale ${days} días, o una fecha de fin`,
  retired: "Ya no se pide",
  retire: "No pedirla más",
  takeBack: "Pedirla otra vez",
  change: "Cambiarla",
  save: "Guardar",
  leave: "Dejarla como está",
  own: "Sus vigencias",
  over: (name, post, day) =>
    day === null ? `${name}, ${post}: sin fecha` : `${name}, ${post}: venció el ${day}`,
  ending: (name, post, day) => `${name}, ${post}: termina el ${day}`,
  bars: "no se puede tomar el puesto",
  dates: "Último día de cada vigencia",
  enterDates: "Ingresar vigencias",
  datesOf: (name) => `Vigencias de ${name}`,
  newPin: "PIN nuevo",
  newPinOf: (name) => `PIN nuevo de ${name}`,
  newPinWhat: "Todas sus entradas terminan. Luego lo cambia por sí mismo.",
  next: (least) => `PIN nuevo, ${least} caracteres o más`,
  replace: "Reemplazar el PIN",
};
