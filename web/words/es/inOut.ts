import { pluralsOf } from "../../../shared/words/plural.ts";
import type { InOutWords } from "../en/inOut.ts";

const plural = pluralsOf("es");

export const inOut: InOutWords = {
  channels: "Instrumentos",
  lead: "Un registrador envía sus canales por nombre. Diga qué indicador lee cada uno.",
  none: "Ningún canal está asignado.",
  engine: (n) => `número ${n}`,
  change: "Asignar los canales",
  channel: "Canal",
  quality: "Calidad",
  qualityOf: (of) => `Calidad, ${of}`,
  channelOf: (of) => `Canal, ${of}`,
  hint: "Deje vacío el canal donde ningún instrumento lee el indicador. Calidad es lo que se sabe de él, como su exactitud.",
  save: "Guardar los canales",
  leave: "Dejarlo",
  webhooks: "Avisos a otros sistemas",
  webhooksLead: "Mensajes a direcciones que el operador nombró en el servidor.",
  noWebhooks: "El operador no ha nombrado ninguna.",
  sends: "Nada espera.",
  elsewhere: "Lo envía otro servidor.",
  waits: (why) => `Espera: ${why}`,
  givenUp: (count) =>
    `${count} ${plural(count, { one: "mensaje abandonado", other: "mensajes abandonados" })}`,
  again: "Intentar de nuevo",
  stillNot: (why) => `No fue aceptado: ${why}`,
};
