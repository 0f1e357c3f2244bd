import type { Text } from "../en/text.ts";

export const times: Text["times"] = {
  now: "ahora mismo",
  ago: (time) => `hace ${time}`,
  since: (time) => `Desde hace ${time}`,
  left: (time) => `quedan ${time}`,
};

export const ask: Text["ask"] = {
  weights: {
    danger: "Peligro: conteste ya",
    alert: "Alerta",
    now: "Se le pide ahora",
    later: "Cuando esté listo",
  },
  sending: "Enviando… todavía sin anotar",
  blocked: "No se oye al servidor: no se puede enviar nada que baje la seguridad.",
  again: (what, age) => `${what}: reportado hace ${age}, se pide otra vez`,
  others: "Se pide a otros ahora",
  queue: "También se le pide",
  region: "Lo que se le pide",
  closed: "Esta sesión está cerrada.",
  abandoned: "Esta sesión fue abandonada.",
  watching: "No ocupa ningún puesto: usted observa. Cualquiera puede dar alto, corte y fuego.",
  timeLeft: "Tiempo que queda",
  left: (of) => `quedan ${of}`,
  past: (of) => `pasados del plazo ${of}`,
  dueOf: {
    toAnswer: "para contestar",
    clearToStart: "para colacionar",
    crank: "de la autorización",
    cranking: "de arrancador",
    oilFirst: "para la primera presión de aceite",
    oilNormal: "para la presión de aceite normal",
    starterCooling: "de descanso del arrancador",
    lightning: "hasta poder seguir",
  },
};

export const figure: Text["figure"] = {
  none: (most) => `Ninguna señal de mano pasa de ${most}: diga el número.`,
  label: (name) => `Señal de mano: ${name}`,
  toYou: "Con la mano se ve así",
  byYou: "Con la mano usted da esto, visto de frente",
  cutsAll: "No nombra motor: vale para todos",
};

export const entry: Text["entry"] = {
  back: "Atrás",
  record: "Anotar",
  readBack: "Colacione: ¿qué motor?",
  engine: "Ingrese el motor",
  engineKey: (n) => `Motor número ${n}`,
  reason: "Dé el motivo",
  defect: "¿Qué está mal?",
  ownReason: (n) => `Motor ${n}: dé su propio motivo`,
  ownWords: "O en sus palabras",
  less: (size) => `Menos ${size}`,
  more: (size) => `Más ${size}`,
  inRange: "en rango",
  low: "bajo",
  high: "alto",
  set: "Ponga lo que marca el instrumento",
  scale: (from, to) => `Escala de ${from} a ${to}`,
  range: (from, to) => `${from} a ${to}`,
  last: (figure, ago) => `Última: ${figure}, ${ago}`,
  notRead: "Sin leer todavía.",
  still: (figure) => `Marca ${figure} otra vez`,
  between: (low, high) => `${low} a ${high}`,
  least: (low) => `al menos ${low}`,
  most: (high) => `como mucho ${high}`,
  outside: (figure, band) => `${figure} está fuera de ${band}: ¿enviar o cambiar?`,
  ifSent: "Si lo envía:",
  send: (figure) => `Enviar ${figure}`,
  change: "Cambiar",
  follows: {
    alert: (alert, posts) => `Alerta a ${posts}: ${alert}`,
    drill: (title) => `El procedimiento se abre en todos los puestos: ${title}`,
    clearance: (n) => `La autorización del motor ${n} termina`,
    lowers: "Cuenta como reporte de que algo no está bien",
  },
  gaugeOf: (gauge, n) => `${gauge}, motor ${n}`,
  itemOf: (item, n) => `Motor ${n}: ${item}`,
  powerVolts: "Voltios de planta externa",
  brakePressure: "Presión de frenos",
  gravity: (at80F, charge) =>
    charge === null ? `A 80 °F ${at80F}: ningún ácido la tiene` : `A 80 °F ${at80F}, cargada al ${charge} %`,
  gravityWaits: "Lea primero la temperatura del electrolito: corrige esta cifra.",
};

export const blades: Text["blades"] = {
  title: "Palas contadas",
  head: "Palas pasadas",
  atLeast: (n) => `Al menos ${n}. Si hay resistencia: pare y dígalo.`,
  unit: "palas",
  enough: "suficiente",
  more: (n) => `faltan ${n}`,
  free: "Sin resistencia",
  resistance: "Resistencia",
};

export const weather: Text["weather"] = {
  title: "Meteorología",
  wind: "Viento",
  gusts: "Rachas",
  air: "Aire",
  calm: "Calma",
  noGusts: "Sin rachas",
  none: "ninguna",
  lacks: {
    wind: "Ponga el viento",
    gusts: "Ponga las rachas, o ninguna",
    gustsBelow: "Las rachas superan al viento, o ninguna",
  },
  record: (wind, gusts, air) =>
    `Anotar ${wind === 0 ? "calma" : `viento ${wind} kt`}, ${gusts === null ? "sin rachas" : `rachas ${gusts}`}${air === null ? "" : `, ${air} °C`}`,
};

export const stops: Text["stops"] = {
  keys: "Alto, corte, fuego",
  hold: "Alto",
  cut: "Corte",
  fire: "Fuego",
  cutWhich: "Corte: ¿qué motor?",
  cutPrompt: "Toque el motor que se corta. Es un mensaje a la tripulación: dé también la señal de mano.",
  cutAll: "Cortar todos los motores",
  fireWhich: "Fuego: ¿en qué motor?",
  firePrompt: "Toque el motor. Es un mensaje a la tripulación: grítelo y muéstrelo también.",
  noEngine: "No es en un motor",
  fireWhere: "Fuego: ¿dónde?",
  fireWhereAt: (n) => `Fuego en motor ${n}: ¿dónde?`,
};

export const standing: Text["standing"] = {
  region: "Paros vigentes",
  notRecorded: "SIN ANOTAR: el servidor no pudo escribirlo. Actúe y páselo con señales de mano.",
  takenIn: "Enterado",
  fire: (place) => `Fuego: ${place}`,
  fireAt: (n, place) => `Fuego en motor ${n}: ${place}`,
  outOnce: (name) => `${name} dice que se apagó. Una segunda persona también debe decirlo.`,
  outTwice: "Termina cuando dos personas en dos dispositivos dicen que se apagó.",
  cut: (n) => `Corte motor ${n}`,
  cutWaits: "Espera que cabina reporte parado.",
  cutDone: "Reportado parado. Se puede dar por terminado.",
  hold: "Alto",
  holdTurning: (n) => `Alto: motor ${n} gira sin autorización`,
  holdSilent: (post) => `Alto: ${post} en silencio`,
  yours: "Lo levanta usted.",
  crews: "Lo levanta cabina o el supervisor.",
  owners: (name) => `Lo levanta solo ${name}.`,
  orphaned: (name) => `${name} no ocupa puesto: también lo levanta el supervisor, con motivo.`,
  release: "Levantar",
};
