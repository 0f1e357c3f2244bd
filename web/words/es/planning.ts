import type { planning as english } from "../en/planning.ts";

export const planning: typeof english = {
  title: "Planear un arranque",
  aircraft: "Avión",
  place: "Lugar",
  placeLike: "Posición 4, plataforma norte",
  heading: "Rumbo de la nariz, grados (opcional)",
  height: "Elevación del campo, pies (opcional)",
  order: "Orden",
  orderIs: (order) => `Orden de arranque: ${order}`,
  orderNone: "Orden de arranque: toque el primer motor",
  orderHow: (usual) =>
    `Toque un motor para quitarlo o ponerlo de último. El orden usual del tipo es ${usual}.`,
  anew: "Empezar el orden de nuevo",
  usual: "Orden usual",
  notStarted: "No se arranca",
  ordinals: {
    1: "Primero",
    2: "Segundo",
    3: "Tercero",
    4: "Cuarto",
    5: "Quinto",
    6: "Sexto",
    7: "Séptimo",
    8: "Octavo",
  },
  why: (order, less) =>
    `El consejo es ${order}${less === null ? "" : `, ${less} puntos mejor`}. ¿Por qué otro orden?`,
  whyLike: "Un motivo que el consejo no puede saber",
  power: "Energía",
  powerTitle: "Energía eléctrica para el arranque",
  cart: "Planta externa",
  batteries: "Baterías del avión",
  people: "Personas",
  notDecided: "Sin decidir",
  busy: "Planeando…",
  plan: "Planear este arranque",
};
