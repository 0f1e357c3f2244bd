import type { SignalWords } from "../../handSignals/signal.ts";
import type { HandSignalWords } from "../en/handSignals.ts";

export const handSignals: HandSignalWords = {
  givers: { pilot: "Desde cabina", marshaller: "Desde tierra", fireCrew: "Del equipo de bomberos" },
  known: {
    read: "texto leído en una copia oficial",
    secondHand: "texto conocido de segunda mano",
    fromMemory: "de memoria, texto sin abrir",
  },
  noForm: {
    cranking: "El señalero ve girar la hélice.",
    started: "Algunos equipos de tierra repiten la mano del piloto para decir que lo vieron funcionar.",
    turning: "Dé parada de emergencia y diga el número.",
    arcNotClear: "Dé alto o parada de emergencia y diga el número.",
    guardInPlace: "El guardia se para donde el piloto lo puede ver.",
    powerConnected: "La T pide energía; nada dice que está conectada. Dígalo.",
    powerDisconnected: "Muestre el enchufe en la mano, o dígalo.",
    release: "Ningún alto termina solo con un gesto: dígalo.",
    handlePropeller: "Nunca con un gesto: encendido cortado se confirma con palabras.",
  },
  courses: {
    held: "Se mantiene quieta hasta que se entienda.",
    once: "Se hace una vez, de principio a fin.",
    again: "Se repite hasta que se entienda.",
  },
};

const toMarshaller = "Del piloto al señalero";
const toCrew = "Del señalero a la tripulación";
const groundToCrew = "Del personal de tierra a la tripulación";
const anyoneToCrew = "De cualquiera en tierra a la tripulación";
const fireToCrew = "Del equipo de bomberos a la tripulación de vuelo y de cabina";
const noWands = "En cabina no hay varas: las manos se alumbran lo necesario (de memoria).";
const sameWands = "Lo mismo con varas.";
const night = "Es señal de noche: se hace con varas.";
const handSeen = "La mano misma debe verse; no conocemos forma con varas.";
const noWandForm = "No conocemos forma con varas.";
const navy = "No es una señal del conjunto internacional.";

/** Each signal by its key. The words are the project's own; the standard's English name is shown beside them. */
export const signals: Readonly<Record<string, SignalWords>> = {
  brakesEngaged: {
    name: "Frenos puestos",
    direction: toMarshaller,
    meaning: "Los frenos están puestos, en el momento en que la mano se cierra.",
    movement: "Brazo y mano, dedos extendidos, a nivel frente a la cara; luego se cierra la mano.",
    wandWords: noWands,
    note: "Abierta, luego cerrada: puestos. El texto no nombra mano; dibujada con la derecha.",
  },
  brakesReleased: {
    name: "Frenos sueltos",
    direction: toMarshaller,
    meaning: "Los frenos están sueltos, en el momento en que la mano se abre.",
    movement: "Brazo con el puño cerrado, a nivel frente a la cara; luego se extienden los dedos.",
    wandWords: noWands,
    note: "Cerrada, luego abierta: sueltos. El texto no nombra mano; dibujada con la derecha.",
  },
  insertChocks: {
    name: "Poner calzos",
    direction: toMarshaller,
    meaning: "Ponga los calzos.",
    movement:
      "Brazos extendidos, palmas hacia afuera; las manos van hacia adentro hasta cruzarse frente a la cara.",
    wandWords: noWands,
    note: "Hacia adentro: calzos puestos.",
  },
  removeChocks: {
    name: "Quitar calzos",
    direction: toMarshaller,
    meaning: "Quite los calzos: el permiso de la tripulación.",
    movement: "Manos cruzadas frente a la cara, palmas hacia afuera; los brazos van hacia afuera.",
    wandWords: noWands,
    note: "Hacia afuera: calzos fuera.",
  },
  readyToStart: {
    name: "Listo para arrancar",
    direction: toMarshaller,
    meaning: "Estoy listo para arrancar el motor de ese número.",
    movement: "Se levantan tantos dedos de una mano como el número del motor que se va a arrancar.",
    wandWords: noWands,
    note: "Para el señalero frente al avión los motores se numeran de su derecha a su izquierda: 1 es el exterior de babor. Una mano muestra de 1 a 5; no hay gesto para más.",
  },
  startEngine: {
    name: "Arranque motor",
    direction: toCrew,
    meaning: "Puede arrancar el motor que señalo. Se da solo después de ver despejado ese motor.",
    movement:
      "La mano derecha de quien la da hace círculos a la altura de la cabeza; el brazo izquierdo se levanta sobre la cabeza y señala el motor.",
    wandWords:
      "Lo mismo: la vara derecha hace círculos a la altura de la cabeza, la izquierda se levanta y señala.",
    note: "Siempre señala el brazo izquierdo, esté el motor en el lado que esté: para uno de babor se inclina al otro lado. Lea adónde señala, nunca qué brazo es.",
  },
  cutEngines: {
    name: "Corte motores",
    direction: toCrew,
    meaning: "Pare los motores. No nombra ninguno: sin señalar un motor vale para todos.",
    movement:
      "Un brazo al frente a la altura del hombro, la mano al hombro opuesto, y luego se pasa por la garganta hasta su propio hombro. Aquí dibujada con el brazo derecho de quien la da.",
    wandWords: "Lo mismo con una vara.",
    note: "Una forma más vieja empieza con el brazo doblado a nivel del hombro.",
  },
  cutOneEngineNight: {
    name: "Corte ese motor (Marina, noche)",
    direction: toCrew,
    meaning: "Pare el motor que señala la otra vara.",
    movement: "Una vara cruza la garganta mientras la otra señala el motor.",
    wandWords: night,
    note: navy,
  },
  slowEngines: {
    name: "Reduzca motores de un lado",
    direction: toCrew,
    meaning: "Reduzca potencia en los motores del lado de la mano que se mueve.",
    movement:
      "Brazos abajo, palmas al suelo; una mano sube y baja. Aquí dibujada con la mano derecha de quien la da: el lado de babor del avión.",
    wandWords: sameWands,
    note: null,
  },
  normalStop: {
    name: "Pare",
    direction: toCrew,
    meaning: "Deténgase donde está.",
    movement: "Ambos brazos a nivel a los lados, luego suben despacio hasta cruzarse sobre la cabeza.",
    wandWords: "Las varas se cruzan sobre la cabeza.",
    note: "Solo su subida lenta la distingue de la parada de emergencia. Obedezca ambas de inmediato.",
  },
  emergencyStop: {
    name: "Parada de emergencia",
    direction: toCrew,
    meaning: "Pare de inmediato.",
    movement: "Ambos brazos suben de golpe y se cruzan sobre la cabeza.",
    wandWords: "Lo mismo; de noche sirve para toda parada.",
    note: "Que falle una vara o ambas también es parada (STANAG 3117, de segunda mano).",
  },
  holdStandBy: {
    name: "Alto, espere",
    direction: toCrew,
    meaning: "Quédese como está y no empiece nada hasta que esté claro qué sigue.",
    movement: "Ambos brazos rectos, 45° hacia abajo a los lados, quietos.",
    wandWords: "Las varas siguen los brazos.",
    note: "«Emergencia controlada» empieza en esta postura, pero se mueve.",
  },
  allClear: {
    name: "Afirmativo, todo despejado",
    direction: toCrew,
    meaning: "Sí; todo despejado.",
    movement:
      "El brazo derecho levantado a la altura de la cabeza con el pulgar arriba; el izquierdo al lado, junto a la rodilla.",
    wandWords: "La vara derecha apunta recto hacia arriba.",
    note: null,
  },
  dispatch: {
    name: "Despacho",
    direction: toCrew,
    meaning: "Terminé con usted: siga. Se mantiene el contacto visual hasta que el avión rueda.",
    movement: "Un saludo con la mano derecha.",
    wandWords: "Un saludo con la vara derecha.",
    note: null,
  },
  fire: {
    name: "Fuego",
    direction: anyoneToCrew,
    meaning: "Hay fuego donde señalo. Reporta; no ordena nada.",
    movement:
      "La mano derecha abanica del hombro a la rodilla, una y otra vez, mientras el brazo izquierdo señala el fuego.",
    wandWords: sameWands,
    note: "El número del motor no tiene gesto: se señala y se dice.",
  },
  fireFigureOfEight: {
    name: "Fuego (Marina, noche)",
    direction: anyoneToCrew,
    meaning: "Hay fuego donde señalo.",
    movement: "Un ocho grande y rápido, acostado a nivel de la cintura; el otro brazo señala el fuego.",
    wandWords: night,
    note: navy,
  },
  pathClear: {
    name: "Camino libre",
    direction: "Del guía de punta de ala a la tripulación, al señalero o al tractor",
    meaning: "No hay nada en el camino. Aquí también lo usa el guardia de fuego para el arco de una hélice.",
    movement:
      "La mano derecha levantada sobre la cabeza, apuntando arriba; la izquierda, apuntando abajo, se lleva hacia el cuerpo.",
    wandWords: "La vara derecha apunta arriba; la izquierda, abajo, y se lleva hacia el cuerpo.",
    note: "Su uso para el arco de una hélice es nuestro; el texto habla del camino de un avión.",
  },
  identifyGate: {
    name: "Esta posición",
    direction: toCrew,
    meaning: "Esta es la posición a la que viene.",
    movement: "Ambos brazos rectos sobre la cabeza, apuntando arriba.",
    wandWords: "Ambas varas apuntan arriba.",
    note: null,
  },
  setBrakes: {
    name: "Ponga frenos",
    direction: toCrew,
    meaning: "Ponga los frenos. Nadie se mueve hasta que la tripulación conteste con el pulgar arriba.",
    movement: "Con contacto visual, la palma abierta apenas sobre el hombro se cierra en puño.",
    wandWords: handSeen,
    note: "Abierta, luego cerrada: poner. Al revés es soltar.",
  },
  releaseBrakes: {
    name: "Suelte frenos",
    direction: toCrew,
    meaning: "Suelte los frenos. Nadie se mueve hasta que la tripulación conteste con el pulgar arriba.",
    movement: "Con contacto visual, el puño apenas sobre el hombro se abre.",
    wandWords: handSeen,
    note: "Cerrada, luego abierta: soltar. Al revés es poner.",
  },
  chocksInserted: {
    name: "Calzos puestos",
    direction: toCrew,
    meaning: "Los calzos están puestos. La tripulación debe contestar.",
    movement: "Brazos sobre la cabeza, las manos dan hacia adentro hasta tocarse.",
    wandWords: "Las varas apuntan adentro y se juntan.",
    note: "Conjuntos más viejos la hacen con los brazos abajo. Vea la forma más vieja.",
  },
  chocksRemoved: {
    name: "Calzos fuera",
    direction: toCrew,
    meaning: "Los calzos están fuera. No se retiran antes de que la tripulación lo diga.",
    movement: "Brazos sobre la cabeza, manos apuntando afuera y dando hacia afuera.",
    wandWords: "Las varas apuntan afuera y se separan.",
    note: "Conjuntos más viejos la hacen con los brazos abajo. Vea la forma más vieja.",
  },
  chocksInsertedOlder: {
    name: "Calzos puestos (forma más vieja)",
    direction: toCrew,
    meaning: "Los calzos están puestos. La tripulación debe contestar.",
    movement: "Brazos abajo, palmas hacia adentro, se mueven de los lados hacia adentro.",
    wandWords: sameWands,
    note: "Acuerden en el briefing qué forma se usa.",
  },
  chocksRemovedOlder: {
    name: "Calzos fuera (forma más vieja)",
    direction: toCrew,
    meaning: "Los calzos están fuera.",
    movement: "Brazos abajo, palmas hacia afuera, se mueven hacia los lados.",
    wandWords: sameWands,
    note: "Los conjuntos de EE. UU. giran los pulgares hacia afuera. Acuerden en el briefing qué forma se usa.",
  },
  connectPower: {
    name: "Conectar planta externa",
    direction: groundToCrew,
    meaning: "Se va a conectar planta externa. La tripulación debe contestar.",
    movement:
      "Brazos sobre la cabeza, la mano izquierda plana y a nivel; las puntas de los dedos de la derecha suben hasta tocar su palma: una T.",
    wandWords: "Varas encendidas pueden formar la T sobre la cabeza.",
    note: "No hay señal para «está conectada».",
  },
  disconnectPower: {
    name: "Desconectar planta externa",
    direction: groundToCrew,
    meaning: "Se va a desconectar planta externa: no antes de que la tripulación lo diga.",
    movement: "Empezando con la T sobre la cabeza, la mano derecha se retira.",
    wandWords: "La T de varas encendidas, y la derecha se retira.",
    note: "El piloto no tiene señal estándar para esto. Tripulaciones de investigación invierten la T: mano izquierda vertical, derecha a nivel contra ella, y se retira (de segunda mano).",
  },
  doNotTouchControls: {
    name: "No toque los mandos",
    direction: groundToCrew,
    meaning:
      "Hay alguien cerca de lo que se mueve: manos fuera de los mandos. La tripulación debe contestar.",
    movement: "El brazo derecho recto arriba con el puño cerrado; el izquierdo al lado, junto a la rodilla.",
    wandWords: "La vara derecha se mantiene a nivel sobre la cabeza.",
    note: null,
  },
  negative: {
    name: "Negativo",
    direction: "Del personal de tierra y la tripulación entre sí",
    meaning: "No.",
    movement: "El brazo derecho recto a nivel, pulgar abajo; la mano izquierda al lado, junto a la rodilla.",
    wandWords: "La vara derecha apunta recto hacia abajo.",
    note: null,
  },
  interphone: {
    name: "Hable por interfono",
    direction: groundToCrew,
    meaning: "Hablemos por interfono.",
    movement: "Ambos brazos a nivel a los lados, luego las manos se llevan a cubrir las orejas.",
    wandWords: noWandForm,
    note: "No hay señal aparte para terminarlo.",
  },
  stairs: {
    name: "Abra o cierre la escalera",
    direction: groundToCrew,
    meaning: "Abra o cierre la escalera delantera que es parte del avión.",
    movement:
      "El brazo derecho al lado, el izquierdo levantado 45° sobre el nivel; luego el derecho sube hasta encima del hombro izquierdo.",
    wandWords: noWandForm,
    note: null,
  },
  recommendEvacuation: {
    name: "Se recomienda evacuar",
    direction: fireToCrew,
    meaning: "Por lo que se ve afuera, se recomienda evacuar.",
    movement:
      "Un brazo a nivel, su mano levantada a la altura de los ojos, llama hacia atrás; el otro brazo contra el cuerpo.",
    wandWords: "Lo mismo con una vara.",
    note: "Decide el comandante.",
  },
  recommendStop: {
    name: "Se recomienda parar",
    direction: fireToCrew,
    meaning: "Pare lo que se hace: una evacuación, mover el avión, cualquier otra actividad.",
    movement: "Brazos frente a la cabeza, cruzados en las muñecas.",
    wandWords: sameWands,
    note: "Frente a la cabeza; la parada del señalero es encima de ella.",
  },
  emergencyContained: {
    name: "Emergencia controlada",
    direction: fireToCrew,
    meaning: "Afuera ya no se ve señal de peligro.",
    movement:
      "Brazos afuera y abajo a 45°, hacia adentro bajo la cintura hasta cruzar las muñecas, y otra vez afuera.",
    wandWords: sameWands,
    note: "Empieza en la postura de alto. Alto está quieto; esta se mueve.",
  },
};

/** The difference within each group of look-alikes, in the order of LOOK_ALIKES. */
export const tells: readonly string[] = [
  "Las tres lo detienen. «Pare» sube despacio desde los brazos a nivel, la parada de emergencia se lanza arriba de golpe, alto está quieto con los brazos abajo. De noche toda parada es la de emergencia.",
  "El señalero cruza los brazos sobre la cabeza; los bomberos cruzan las muñecas frente a ella. Obedezca cualquiera.",
  "La misma postura al empezar. Alto está quieto; «controlada» va adentro bajo la cintura y otra vez afuera.",
  "Solo la dirección lo dice: hacia adentro hasta cruzar, puestos; hacia afuera desde cruzadas, fuera.",
  "Las manos apuntan adentro y se juntan: puestos. Las manos apuntan afuera y se separan: fuera.",
  "Un significado, dos formas: ahora sobre la cabeza, brazos abajo en conjuntos más viejos. Acuerden una en el briefing.",
  "Un significado, dos formas: ahora sobre la cabeza, brazos abajo en conjuntos más viejos. Acuerden una en el briefing.",
  "Cuenta el final: puño cerrado es poner, mano abierta es soltar. Espere el principio y el final.",
  "El reporte del propio piloto, a nivel frente a la cara. Termina en puño: puestos. Termina abierta: sueltos.",
  "Las puntas de los dedos suben a hacer la T: conectar. La T está hecha y la mano derecha se va: desconectar.",
  "Brazo arriba y pulgar arriba: sí. Brazo a nivel y pulgar abajo: no. De noche lea la vara: arriba o abajo.",
  "Ambas tienen un brazo en alto. En arranque la mano más baja hace círculos a la altura de la cabeza; en camino libre la otra entra a la altura de la cadera.",
];
