import type { BriefWords } from "../en/brief.ts";

const WAY_TO_WHEELS =
  "Vaya a las ruedas por donde indica el supervisor, nunca entre una hélice que gira y la rueda.";

export const brief: BriefWords = {
  stops: [
    {
      say: "ALTO (HOLD)",
      means: "Nadie inicia nada nuevo. Los motores que giran siguen. Lo levanta la persona que lo dio.",
    },
    { say: "CORTE MOTOR … (CUT)", means: "Cabina para ese motor y lo reporta parado." },
    { say: "CORTE TODOS (CUT ALL)", means: "Cabina para todos los motores y los reporta parados." },
    {
      say: "FUEGO MOTOR … (FIRE)",
      means: "Fuego, con su lugar si se ve. Siga la tarjeta de fuego; la tripulación decide el corte.",
    },
    {
      say: "MOTOR … GIRANDO (TURNING)",
      means: "Un motor gira sin autorización. Es un alto, y todos se apartan.",
    },
  ],
  anyoneStops:
    "Cualquiera las dice, en cualquier momento, de voz, con la mano o en el panel. Nadie necesita permiso para parar un arranque. Nadie lo discute.",
  backUp: [
    "Las señales de mano van primero ante cualquier duda; el panel es el registro de lo señalado.",
    "Panel en silencio, interfono caído o palabras no oídas: alto, mire a cabina, siga solo con señales de mano.",
    "De día: manos o paletas. De noche: varas luminosas; una vara que falla es un alto.",
    "Si no ve a la otra persona, no dé señal de seguir. Fuera de la vista es un alto.",
    "Perdido todo el sistema: tome la tarjeta impresa y empiece de nuevo el arranque de ese motor desde el principio.",
  ],
  chocks: [
    "Calzos delante y detrás de las ruedas principales antes de las revisiones de energía. Ponga también los frenos con presión, nunca en lugar de los calzos.",
    "Los calzos salen solo con permiso de cabina, y solo con frenos puestos y su presión recién leída.",
    WAY_TO_WHEELS,
    "Quítelos, lléveselos y muéstrelos a cabina. Si se olvidó uno: alto. Pare el motor de ese lado antes de que alguien vaya por él.",
  ],
  chocksReturn: [
    "El avión está en su posición, con los frenos puestos y su presión leída. Entonces entran los calzos, solo con permiso de cabina.",
    WAY_TO_WHEELS,
    "Calce las ruedas principales por delante y por detrás, y muéstrelo a cabina. Hasta entonces los frenos siguen puestos.",
  ],
  wayToWheels: WAY_TO_WHEELS,
  chocksInboard:
    "En este tipo ambos motores interiores están parados antes de que alguien vaya a los calzos.",
  handOver: [
    "Un puesto lo ofrece quien lo ocupa y lo acepta la persona nombrada; hasta que acepte, lo conserva quien lo ocupa.",
    "Antes de irse diga: qué motor sigue, qué gira, qué alto hay, dónde están el guardia y la planta.",
    "Todo cambio de puesto acaba con autorizaciones y permisos. Un guardia de fuego nuevo reporta otra vez su puesto y el arco.",
    "Quien recibe el puesto confirma este briefing antes de actuar.",
  ],
  standsBy: {
    start:
      "El guardia está atento con el extintor revisado desde antes de accionar el arrancador hasta que el motor está estable.",
    return:
      "El guardia está atento con el extintor revisado desde la llegada hasta que se vio parada la última hélice.",
  },
  fire: [
    "El guardia llega a un motor por fuera o por delante, nunca por detrás de una hélice ni pasando junto a una que gira.",
    "Fuego no corta por sí solo. Cabina sigue su tarjeta; el guardia combate solo mientras la salida siga abierta.",
    "Dos personas en dos dispositivos dicen que un fuego se apagó.",
  ],
  escape: [
    "Ninguna salida pasa por el arco de un motor que gira, ni por detrás. Dele su espacio también a una hélice parada.",
    "Mire antes de moverse; cerca de una hélice camine, no corra.",
  ],
  spectators: [
    "Si se acerca alguien que no es de esta tripulación, dé alto de inmediato.",
    "El arranque sigue solo cuando el supervisor los vio afuera y lo dijo. El guardia no deja un motor por ellos.",
  ],
  stopTimes: (within, told) =>
    `Un paro se contesta en ${within} s; sin respuesta se avisa al supervisor a los ${told} s.`,
  centreLine: "línea central",
  brings: (list) => `el primero en dar ${list}`,
  adds: (list) => `agrega ${list}`,
  drivesNothing: "no mueve nada que los demás esperen",
  asUsual: "como es usual en este tipo",
  notUsual: "no está en el orden usual",
  usualStart: (nth) => `usualmente arranque ${nth}`,
  takes: (list) => `con él para ${list}`,
  takesNothing: "con él no para nada que muevan los demás",
  besideWheels: "gira junto a las ruedas: nadie va a ellas antes de que esté parado",
  usualStop: (nth) => `usualmente apagado ${nth}`,
  idle: (time) => `Cada motor queda en ralentí ${time} antes de apagarlo.`,
  idleFigure: (gauge, most) => `${gauge}, en ralentí: máximo ${most}.`,
  later:
    "Manda lo que termine más tarde. Un motor se puede apagar siempre de inmediato; entonces cabina escribe por qué.",
  stillBy: {
    guard: "Solo el guardia de fuego reporta parada cada hélice, después de mirarla.",
    another: "Otra persona que la que apagó el motor reporta parada su hélice.",
  },
  dilution: (from) =>
    `A cabina se le pide la temperatura mínima de la noche y de dónde viene. Por debajo de ${from} se diluye el aceite antes de apagar un motor.`,
  dilutionStep: (downTo, percent, time) =>
    `Noche hasta ${downTo}: ${percent} de combustible en el aceite, ${time} en cada motor.`,
  dilutionLeast: (least) => `Presión de aceite menor que ${least}: deje de diluir.`,
  handsLast: "Ninguna mano en una hélice antes de ver paradas todas y comprobar apagados los interruptores.",
  batteries: "Las baterías del propio avión. No se conecta planta.",
  steady: (from, to) => `Planta externa, estable entre ${from} y ${to}. Fuera de eso: dígalo, y alto.`,
  plug: "Salida apagada antes de enchufar o desenchufar. Conectar y desconectar solo con permiso de cabina.",
  approach: {
    port: "Desde la punta del ala de babor o por delante.",
    centre: "Por delante, a babor de la hélice.",
    starboard: "Desde la punta del ala de estribor o por delante.",
  },
  engine: (n) => `motor ${n}`,
  engines: (but, last) => `motores ${but} y ${last}`,
  way: (n, stands, turns) => `Motor ${n} (${stands}), ${turns}`,
  nothingTurns: "nada gira todavía",
  turns: (engine) => `gira ${engine}`,
  turn: (engines) => `giran ${engines}`,
  outboard: (way, to) => `${way}: derecho hacia ${to}, por delante del ala y más allá de su punta.`,
  ahead: (way, to, through) =>
    `${way}: párese y salga derecho por delante de las hélices. La salida hacia ${to} está cerrada: pasa por el arco de ${through}.`,
  receptacleAhead:
    "Planta externa, en la toma: derecho adelante, más allá de la nariz. La toma queda delante de todas las hélices; nunca vaya hacia atrás entre ellas.",
  receptacleAft:
    "Planta externa, en la toma: hacia atrás a lo largo del fuselaje y más allá de la cola. Hay hélices delante de la toma; nunca vaya adelante ni de lado frente a una.",
  stopper: (name) => `${name}, como supervisor, hace retroceder a los espectadores.`,
  noStopper: "El supervisor hace retroceder a los espectadores; todavía nadie está nombrado en ese puesto.",
  defect: (words) => words,
  defectAt: (n, words) => `Motor ${n}: ${words}`,
  bars: (defect) => `${defect} (impide el arranque)`,
  deferred: (defect, left, name) => `${defect} (aplazado ${left}, por ${name}; después impide el arranque)`,
  mended: (defect, name) => `${defect} (reparado por ${name}; otra persona aún no lo inspeccionó)`,
  mendedBars: (defect, name) =>
    `${defect} (reparado por ${name}; impide el arranque hasta que otra persona lo inspeccione)`,
  kinds: { fuelling: "combustible", building: "edificio", aircraft: "otro avión", public: "público" },
  nearIs: (name, kind, bearing, distance, across) =>
    `${name} (${kind}): marcación ${bearing}°, a ${distance} de la nariz, ${across} de ancho`,
  tooNear: (words) => `DEMASIADO CERCA. ${words}.`,
  anyone: "Cualquiera",
  everybody: "todos",
  ends: { waiting: "Sin accionar", cooling: "Abandonado", shutDown: "Apagado" },
  firstOut: "Primero en decir que se apagó",
  groundPower: "Planta externa",
  gaugeOf: (gauge, n) => `${gauge}, motor ${n}`,
  above: (gauge, n, found, most, seconds) =>
    `SOBRE SU MÁXIMO, motor ${n}: ${gauge} hasta ${found}, máximo ${most}, al menos ${seconds} s`,
  stillAbove: ", sin lectura menor desde entonces",
  atMost: (most) => `máximo ${most}`,
  atLeast: (least) => `mínimo ${least}`,
  trace: (samples) => `Planta externa en el tiempo, ${samples} muestras`,
  envelope: "la envolvente del tipo",
  noVerdict: "sin juicio",
  range: (from, to) => `${from} a ${to}`,
};
