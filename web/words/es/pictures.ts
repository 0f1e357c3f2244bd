import type { PictureWords } from "../en/pictures.ts";

export const pictures: PictureWords = {
  add: "Agregar una foto",
  addTo: (defect) => `Agregar una foto a: ${defect}`,
  working: "Achicándola…",
  sending: "Enviando la foto…",
  added: "La foto está agregada.",
  unreadable: "Este archivo no es una foto que este equipo pueda leer.",
  title: (n) => (n === 1 ? "1 foto" : `${n} fotos`),
  of: (defect, n) => `Foto ${n} de: ${defect}`,
  by: (name, when) => `De ${name}, ${when}`,
  gone: (name, when) => `Foto de ${name}, ${when}: ya no se guarda`,
  removed: (name, when, why) => `Quitada por ${name}, ${when}: ${why}`,
  save: "Guardar",
  remove: "Quitar",
  why: "¿Por qué se quita la foto? El registro conserva que estuvo",
  leave: "Dejarla",
  saveAll: "Guardar las fotos de los defectos",
};
