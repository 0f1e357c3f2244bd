import type { stand as english } from "../en/stand.ts";

export const stand: typeof english = {
  near: "Objetos cerca",
  nearHow: "Mida desde la nariz hasta su parte más cercana. Dé también su ancho. El rumbo lo sitúa.",
  add: "Agregar un objeto",
  drop: (name) => `Quitar ${name || "este"}`,
  kind: "Qué es",
  kinds: { fuelling: "Combustible", building: "Edificio", aircraft: "Otro avión", public: "Público" },
  name: "Nombre",
  nameLike: "Hangar 2",
  bearing: "Marcación desde la nariz, grados verdaderos",
  distance: "Distancia desde la nariz",
  across: "Su ancho",
  unit: "Unidad",
  heading: "Ponga el rumbo de la nariz: sin él nada se puede situar.",
  faulty: (name, what) => `${name || "Objeto cerca"}: ${what}`,
  needName: "dele un nombre",
  needBearing: "dé su marcación, de 0 a 360 grados",
  needDistance: "dé su distancia, de 0 a 2000",
  needAcross: "dé su ancho, de 0.1 a 500",
  title: "La posición, a escala",
  show: "La posición, a escala: arcos, chorro, camino del guardia",
  hide: "Ocultar la posición",
  drawn: (kind, metres) =>
    `Rayado: arcos que giran. Sombreado: ${metres} m detrás libres de ${kind}. Puntos: camino del guardia.`,
  drawnPlanned: (kind, metres) =>
    `Rayado: arcos de los motores por arrancar. Sombreado: ${metres} m detrás libres de ${kind}. Puntos: camino del guardia al primer motor.`,
  keep: (n) => `${n} m libres`,
  noFigures: "El tipo no da distancias libres: no se dibuja ninguna.",
  guard: "Guardia",
  metres: (n) => `${n} m`,
  assumed: "Lo que supone el dibujo",
};
