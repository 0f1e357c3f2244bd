import { pluralsOf } from "../../../shared/words/plural.ts";
import type { ListWords } from "../en/lists.ts";

const plural = pluralsOf("es");

/** The house's people, aircraft and equipment as files. */
export const lists: ListWords = {
  title: "Listas como archivos",
  lead: "Archivos CSV para una hoja de cálculo. Primero se revisa el archivo: nada cambia antes de que usted lo diga, y entonces todo o nada. Lo que el archivo no nombra se queda.",
  kinds: { people: "Personas", aircraft: "Aviones", equipment: "Equipo" },
  save: "Guardar en un archivo",
  saveOf: (list) => `Guardar en un archivo: ${list}`,
  read: "Leer un archivo",
  readOf: (list) => `Leer un archivo: ${list}`,
  faulty: (n) =>
    `${n} ${plural(n, { one: "error", other: "errores" })}. Corrija el archivo y léalo otra vez. No se cambió nada.`,
  place: (line, column) => (column === null ? `Línea ${line}` : `Línea ${line}, ${column}`),
  would: (changes, same) =>
    `${changes} ${plural(changes, { one: "línea cambiaría", other: "líneas cambiarían" })} algo, ${same} no.`,
  added: (line) => `es nuevo (línea ${line})`,
  changed: (line) => `cambia (línea ${line})`,
  fromTo: (before, after) => `${before || "–"} → ${after || "–"}`,
  take: (n) => `Aceptar ${n} ${plural(n, { one: "línea", other: "líneas" })}`,
  taken: (file) => `Se aceptó ${file}.`,
  leave: "Dejar todo como está",
};
