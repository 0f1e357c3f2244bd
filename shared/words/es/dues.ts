import type { DuesWords } from "../en/dues.ts";
import { pluralsOf } from "../plural.ts";

const plural = pluralsOf("es");
const starts = (n: number) => `${n} ${plural(n, { one: "arranque", other: "arranques" })}`;

/** Words of the dues: on the page, on paper and in a calendar. */
export const dues: DuesWords = {
  atPost: (name, post) => `${name}, ${post}`,
  dated: (name, date) => `${name}: ${date}`,
  onEngine: (name, n) => `${name}, motor ${n}`,
  bladesOne: (engine) => `Girar la hélice por palas: motor ${engine}`,
  blades: (engines) => `Girar hélices por palas: motores ${engines}`,
  noDate: "sin fecha",
  overSince: (day) => `vencido desde el ${day}`,
  until: (day) => `hasta el ${day}`,
  hoursOver: (hours) => `vencido por ${hours} h`,
  hoursLeft: (hours) => `quedan ${hours} h`,
  hoursNotKnown: "horas no conocidas",
  startsOver: (n) => `vencido por ${starts(n)}`,
  startsLeft: (n) => `${plural(n, { one: "queda", other: "quedan" })} ${starts(n)}`,
  startsNotKnown: "arranques no conocidos",
  neverDone: "nunca anotado como hecho",
  beforeStart: "antes del próximo arranque",
  bars: "impide",
  is: { over: "Vencido", soon: "Pronto", later: "Más tarde" },
  whom: "Quién o qué",
  what: "Qué",
  when: "Último día, horas o arranques",
  source: "Lo exige",
  title: "Vencimientos",
  about: "Todo lo de esta casa que tiene un último día o una última hora.",
  caution:
    "Una lista para recordar. Si una persona, un avión o un equipo se puede usar lo deciden las reglas locales y las personas con licencia.",
  calendar: "Vencimientos de Chockside",
};
