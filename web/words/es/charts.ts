import type { LaterWords } from "../en/later.ts";

export const charts: LaterWords["charts"] = {
  title: (minutes: number) => `Lecturas de los últimos ${minutes} min`,
  none: "Todavía no hay lecturas. Se dibujan aquí.",
  engine: (n: number) => `Motor ${n}`,
  aircraft: "Avión",
  groundPower: "Planta externa",
  bands: {
    belowMin: "bajo el mínimo",
    usable: "aún no normal",
    normal: "normal",
    caution: "sobre lo normal",
    over: "sobre el límite",
  },
  old: (time: string) => `de hace ${time}`,
  says: (what: string, where: string, figure: string, band: string, time: string, count: number) =>
    `${what}, ${where}: ${figure}, ${band}, hace ${time}; ${count} lecturas`,
};

export const past: LaterWords["past"] = {
  lookBack: "Mirar atrás",
  title: "EL PASADO",
  lead: (time, seq, of) => `${time}, número ${seq} de ${of}. Aquí no se puede contestar nada.`,
  now: "Volver a ahora",
  scrub: "Momento que se muestra",
  earlier: "Antes",
  later: "Después",
  stage: (stage) => `Etapa: ${stage}`,
  asked: "Pedido entonces",
  nothing: "No se pedía nada.",
  stops: "Paros de ese momento",
};
