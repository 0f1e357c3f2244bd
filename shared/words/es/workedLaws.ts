import type { Phrase } from "../piece.ts";

/** Equations that contain words, their sources, and cautions. Formulas without words stay as they are. */
export const workedLaws: readonly Phrase[] = [
  // Equations.
  ["head = V cos(from - heading)", "frente = V cos(de - rumbo)"],
  ["cross = V sin(from - heading)", "cruzado = V sin(de - rumbo)"],
  [
    "whole knots: 1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64 begin forces 1 to 12",
    "nudos enteros: 1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64 empiezan las fuerzas 1 a 12",
  ],
  [
    "13.12 + 0.6215 T - 11.37 V^0.16 + 0.3965 T V^0.16, V in km/h",
    "13.12 + 0.6215 T - 11.37 V^0.16 + 0.3965 T V^0.16, V en km/h",
  ],
  ["145442 (1 - ((p / p0) / (T / T0))^0.235)", "145442 (1 - ((p / p0) / (T / T0))^0.235)"],
  [
    "virtual temperature for T, then 145366 (1 - (17.326 p / Tr)^0.235)",
    "temperatura virtual en vez de T, luego 145366 (1 - (17.326 p / Tr)^0.235)",
  ],
  [
    "of the cases that apply by time stood and air, the one that asks most",
    "de los casos que valen por tiempo parado y aire, el que más pide",
  ],
  [
    "larger of the figure and x = K d u0 / u, u0 = 2 v, v = sqrt(T / 2 rho A)",
    "el mayor entre el valor y x = K d u0 / u, u0 = 2 v, v = sqrt(T / 2 rho A)",
  ],
  [
    "hot: ran within the time; otherwise the first band that reaches the temperature",
    "caliente: funcionó dentro del tiempo; si no, la primera banda que alcanza la temperatura",
  ],
  [
    "the type's table; colder takes more, hot little or none (FAA P-8740-13)",
    "la tabla del tipo; más frío pide más, caliente poco o nada (FAA P-8740-13)",
  ],
  [
    "No start at the first try may mean too much: then no more prime, clear it as the manual says.",
    "Si no arranca al primer intento puede ser exceso: no cebe más y limpie como dice el manual.",
  ],
  [
    "what this engine drives, less what engines that turn drive already",
    "lo que mueve este motor, menos lo que ya mueven los que giran",
  ],
  ["the type's accessories", "los accesorios del tipo"],
  ["load / rating", "carga / régimen"],
  ["the generator's plate, as the type gives it", "la placa del generador, como la da el tipo"],
  [
    "the last step whose figures were all read; left as in the warm-up, by Newton's law",
    "el último paso cuyos valores se leyeron todos; lo que falta como en el calentamiento, por la ley de Newton",
  ],
  [
    "the type's steps; oil warm before more revolutions (airline operations 1946, 3034)",
    "los pasos del tipo; aceite caliente antes de más revoluciones (airline operations 1946, 3034)",
  ],
  [
    "By the present air: a colder night may ask for more.",
    "Según el aire de ahora: una noche más fría puede pedir más.",
  ],
  [
    "now, less the first of the readings above without one at or below between",
    "ahora, menos la primera de las lecturas por encima sin otra igual o menor entre ellas",
  ],
  [
    "the type's gauge; it may have been above for longer than anybody read",
    "el instrumento del tipo; pudo estar por encima más tiempo del leído",
  ],
  [
    "the later of the time at idle and of each gauge at its figure, by T(t) = steady + (first - steady) e^(-rate t)",
    "lo que termine más tarde, el tiempo en ralentí o cada instrumento en su valor, con T(t) = final + (primera - final) e^(-ritmo t)",
  ],
  [
    "the type's cool-down; Newton's law of cooling, fitted to the readings at idle",
    "el enfriamiento del tipo; ley de enfriamiento de Newton, ajustada a las lecturas en ralentí",
  ],
  ["Nobody has reported yet that the engines idle.", "Nadie ha reportado todavía los motores en ralentí."],
  ["Read each gauge at idle.", "Lea cada instrumento en ralentí."],
  [
    "An engine can always be stopped at once: then write why.",
    "Un motor se puede apagar siempre de inmediato: luego escriba por qué.",
  ],
  [
    "the type's order, of the engines that came in turning",
    "el orden del tipo, de los motores que llegaron girando",
  ],
  ["the type's order of stopping", "el orden de apagado del tipo"],
  [
    "of the type's steps that serve down to the forecast, the one with the least fuel",
    "de los pasos del tipo que sirven hasta el pronóstico, el de menos combustible",
  ],
  [
    "the type's steps; TM 1-1500-204-23-3: 10 % for a night of -12 degC, never below 15 psi meanwhile",
    "los pasos del tipo; TM 1-1500-204-23-3: 10 % para una noche de -12 °C, nunca bajo 15 psi mientras tanto",
  ],
  [
    "Give the least temperature that the night is expected to have, and where that is from.",
    "Dé la temperatura mínima que se espera en la noche, y de dónde sale.",
  ],
  [
    "Colder than every step of the type: heat the engines before the next start.",
    "Más frío que todos los pasos del tipo: caliente los motores antes del próximo arranque.",
  ],
  [
    "No engine turns any more, and oil mixes only while its engine runs: if it was not diluted, heat it before the next start.",
    "Ya no gira ningún motor, y el aceite solo se mezcla con el motor en marcha: si no se diluyó, caliéntelo antes del próximo arranque.",
  ],
  [
    "Oil pressure is below the least for diluting: do not dilute.",
    "La presión de aceite está bajo la mínima para diluir: no diluya.",
  ],
  [
    "The next start begins on thin oil: warm it as the type says before power.",
    "El próximo arranque empieza con aceite delgado: caliéntelo como dice el tipo antes de dar potencia.",
  ],
  [
    "what this engine drives, less what the other engines that turn drive too",
    "lo que mueve este motor, menos lo que mueven también los otros que giran",
  ],
  [
    "engagements of the starter since the engine last ran",
    "accionamientos del arrancador desde que el motor funcionó",
  ],
  [
    "AC 61-23 sec. 2-17: after a reasonable number of attempts look for the reason",
    "AC 61-23 sec. 2-17: tras un número razonable de intentos, busque la causa",
  ],
  [
    "Look at ignition and fuel before another attempt.",
    "Mire encendido y combustible antes de otro intento.",
  ],
  [
    "relative humidity 100 e(dew point) / e(temperature), e = 6.11 · 10^(7.5 T / (237.7 + T)) hPa",
    "humedad relativa 100 e(punto de rocío) / e(temperatura), e = 6.11 · 10^(7.5 T / (237.7 + T)) hPa",
  ],
  [
    "DOI Safety Alert 11-01; simplified from the charts of FAA SAIB CE-09-35 and the CAA",
    "DOI Safety Alert 11-01; simplificado de las cartas de FAA SAIB CE-09-35 y la CAA",
  ],
  ["A coarse reading: the chart and the manual decide.", "Lectura aproximada: deciden la carta y el manual."],
  [
    "At idle: carburettor air as the manual says before more power; cold for the start itself.",
    "En ralentí: aire del carburador como dice el manual antes de más potencia; frío para el arranque.",
  ],
  ["VD = ohms per foot x feet x amperes / conductors", "VD = ohmios por pie x pies x amperios / conductores"],
  ["V = Voc - I (Rint + Rcable)", "V = Voc - I (Rint + Rcable)"],
  ["seen - expected", "visto - esperado"],
  [
    "at 80 degF: g + rule (t - 80); charge = (g - discharged) / (charged - discharged)",
    "a 80 °F: g + regla (t - 80); carga = (g - sin carga) / (con carga - sin carga)",
  ],
  ["least <= volts <= most", "mínimo <= voltios <= máximo"],
  ["least way over the corners of closed ground", "camino más corto por las esquinas del suelo cerrado"],
  ["miles = seconds from flash to thunder / 5", "millas = segundos del rayo al trueno / 5"],
  [
    "distance > larger of the figure and x = K d u0 / u; around: from nose to tail, wing tips and discs",
    "distancia > el mayor entre el valor y x = K d u0 / u; alrededor: de nariz a cola, puntas de ala y discos",
  ],
  [
    "D = 100 sum(C / T), T = 8 / 2^((L - criterion) / exchange)",
    "D = 100 suma(C / T), T = 8 / 2^((L - criterio) / intercambio)",
  ],
  [
    "left = limit - (now - caught); only a reading shows it",
    "queda = límite - (ahora - prendió); solo una lectura lo muestra",
  ],
  ["log10 log10 (v + 0.7) = A - B log10 T", "log10 log10 (v + 0.7) = A - B log10 T"],
  [
    "required when the air is colder than the limit, for the soak where one is given",
    "hace falta si el aire está más frío que el límite, durante el tiempo parado donde se da",
  ],
  [
    "least sum over all orders of accessories waited for, guard's walk, wind, power and habit",
    "la menor suma, entre todos los órdenes, de accesorios esperados, camino del guardia, viento, energía y costumbre",
  ],
  [
    "drop = both - one; difference = |left drop - right drop|; no drop is a fault",
    "caída = ambos - uno; diferencia = |caída izquierda - caída derecha|; sin caída es falla",
  ],
  ["drop = before - lowest", "caída = antes - la más baja"],
  ["highest - lowest", "la mayor - la menor"],
  [
    "ready when every gauge of the run-up is read and in range and every check passes",
    "listo cuando cada indicador de la prueba está leído y en rango y cada revisión pasa",
  ],
  [
    "next = end of the last + the rest of its step; after the last step its rest again",
    "próximo = fin del último + el descanso de su paso; tras el último paso, su descanso otra vez",
  ],
  [
    "engaged: heat' = (steady - heat) / tau on; at rest: heat' = -heat / tau off",
    "accionado: calor' = (estable - calor) / tau accionado; en descanso: calor' = -calor / tau en descanso",
  ],
  [
    "N = (charge - floor) C share / (I t / 3600 (I / Irated)^(k - 1)), while Voc - Ibreak (Rint + Rcable) keeps the least volts",
    "N = (carga - mínima) C parte / (I t / 3600 (I / Inominal)^(k - 1)), mientras Voc - Idespegue (Rint + Rcable) mantenga los voltios mínimos",
  ],
  [
    "straight between samples; out of the steady band the curve holds from that moment on",
    "recta entre muestras; fuera de la banda estable vale la curva desde ese momento",
  ],
  [
    "T(t) = steady - rise e^(-rate t), fitted by least squares; left = ln(rise / (steady - gate)) / rate",
    "T(t) = estable - subida e^(-tasa t), ajustada por mínimos cuadrados; queda = ln(subida / (estable - meta)) / tasa",
  ],
  // Origin.
  ["the gust counts where one is reported", "cuenta la racha donde se reporta una"],
  ["Beaufort scale as the WMO prints it", "escala Beaufort como la imprime la OMM"],
  ["US NWS and Environment Canada, 2001", "US NWS y Environment Canada, 2001"],
  ["ISO 2533 pressure law; US NWS forms", "ley de presión de ISO 2533; formas del US NWS"],
  [
    "the type's rule; FAA-H-8083-30 ch. 11 on hydraulic lock",
    "la regla del tipo; FAA-H-8083-30 cap. 11 sobre bloqueo hidráulico",
  ],
  [
    "actuator disk (Rankine and Froude) and a round free jet; no wing, no ground but the factor",
    "disco actuador (Rankine y Froude) y chorro libre redondo; sin ala, sin más suelo que el factor",
  ],
  [
    "AC 43.13-1B para 11-66 and Table 11-9, conductor at 20 degC; the table's ohms have two digits, about 8 %",
    "AC 43.13-1B párr. 11-66 y tabla 11-9, conductor a 20 °C; los ohmios de la tabla tienen dos cifras, cerca de 8 %",
  ],
  ["Ohm's law; batteries side by side as one source", "ley de Ohm; baterías en paralelo como una fuente"],
  [
    "hydrometer correction as service manuals and FAA-H-8083-31A ch. 9 print it; charge straight between",
    "corrección del densímetro como la imprimen los manuales y FAA-H-8083-31A cap. 9; la carga en línea recta",
  ],
  [
    "the starting band holds while an engine cranks",
    "la banda de arranque vale mientras un motor gira con arrancador",
  ],
  ["the steady band holds", "vale la banda estable"],
  [
    "visibility graph (Lozano-Perez and Wesley 1979) and Dijkstra",
    "grafo de visibilidad (Lozano-Perez y Wesley 1979) y Dijkstra",
  ],
  [
    "sound runs a statute mile in about five seconds: US NWS teaching rule",
    "el sonido recorre una milla terrestre en unos cinco segundos: regla didáctica del US NWS",
  ],
  [
    "plane geometry; actuator disk (Rankine and Froude) and a round free jet",
    "geometría plana; disco actuador (Rankine y Froude) y chorro libre redondo",
  ],
  [
    "29 CFR 1910.95 app. A, from memory; half a dose begins the hearing programme",
    "29 CFR 1910.95 ap. A, de memoria; media dosis inicia el programa de audición",
  ],
  [
    "the type's limits by the band of the air's temperature",
    "los límites del tipo por la banda de temperatura del aire",
  ],
  ["ASTM D341 (Walther) through the oil's two points", "ASTM D341 (Walther) por los dos puntos del aceite"],
  ["the type's rule", "la regla del tipo"],
  ["exact search over sets (Held and Karp 1962)", "búsqueda exacta por conjuntos (Held y Karp 1962)"],
  ["AMT handbook, powerplant, on the magneto check", "manual AMT, planta motriz, prueba de magnetos"],
  ["airline operations 1946, 3034", "operaciones de aerolínea 1946, 3034"],
  ["TM 1-1500-204-23-1 table 7-2 step 10", "TM 1-1500-204-23-1 tabla 7-2 paso 10"],
  ["the type's run-up rules", "las reglas del tipo para la prueba de motores"],
  [
    "the type's ladder by the band of the air's temperature (form: TM 55-1510-215-10)",
    "la escalera del tipo por la banda de temperatura del aire (forma: TM 55-1510-215-10)",
  ],
  [
    "first-order heating, cold before the first engagement recorded",
    "calentamiento de primer orden, frío antes del primer accionamiento registrado",
  ],
  [
    "Peukert 1897 for a short draw; Ohm's law for the bus",
    "Peukert 1897 para un consumo corto; ley de Ohm en la barra",
  ],
  [
    "form of MIL-STD-704F figures 12 and 13, from memory; the limits are the type's",
    "forma de MIL-STD-704F figuras 12 y 13, de memoria; los límites son del tipo",
  ],
  [
    "Newton's law of heating; Levenberg-Marquardt; one standard error of the fit alone",
    "ley de calentamiento de Newton; Levenberg-Marquardt; un error estándar del ajuste solo",
  ],
  // Cautions.
  ["The heading of the nose is not planned.", "El rumbo de la nariz no está planeado."],
  [
    "The wind's direction is not known: the worst one counts.",
    "No se sabe la dirección del viento: cuenta la peor.",
  ],
  ["The wind's direction swings: the worst of it counts.", "La dirección del viento gira: cuenta la peor."],
  [
    "Bare skin freezes within half an hour (US NWS: from -18 degF).",
    "La piel descubierta se congela en media hora (US NWS: desde -18 °F).",
  ],
  [
    "QNH, temperature and the field's height are all needed.",
    "Hacen falta QNH, temperatura y altura del campo.",
  ],
  ["Of dry air: no dew point was read.", "De aire seco: no se leyó punto de rocío."],
  [
    "So few do not take every cylinder through one compression.",
    "Tan pocas no llevan cada cilindro por una compresión.",
  ],
  [
    "A count finds a lock by feel and never rules one out: on resistance stop.",
    "Contar halla un bloqueo por el tacto y nunca lo descarta: si hay resistencia, pare.",
  ],
  [
    "An estimate with its assumptions, at sea level in standard air.",
    "Una estimación con sus supuestos, a nivel del mar en aire estándar.",
  ],
  [
    "The cart counts as stiff: its own droop is not known.",
    "La planta cuenta como firme: no se sabe su propia caída.",
  ],
  [
    "Nothing is counted for the leads: the type does not say.",
    "No se cuenta nada por los cables: el tipo no lo dice.",
  ],
  [
    "Far from what was expected: look at plug, cable, brushes and batteries.",
    "Lejos de lo esperado: revise clavija, cable, escobillas y baterías.",
  ],
  ["The hydrometer has not been read.", "No se ha leído el densímetro."],
  [
    "The type gives no band for cranking: the steady one holds all the time.",
    "El tipo no da banda para arrancar: vale la estable todo el tiempo.",
  ],
  ["{1}: stop an engine first.", "{1}: pare un motor primero."],
  ["The straight way is closed: walk around.", "El camino recto está cerrado: rodee."],
  [
    "By the type's plan: what stands on the ramp is not in it.",
    "Por el plano del tipo: lo que hay en la plataforma no está en él.",
  ],
  ["A flash of unknown distance counts as near.", "Un rayo a distancia desconocida cuenta como cercano."],
  ["Too near: {1}.", "Muy cerca: {1}."],
  [
    "The type gives no stream: its own figures alone are taken.",
    "El tipo no da chorro: se toman solo sus propios valores.",
  ],
  [
    "By the plan, as a square as wide as it was said to be: look and measure before the start.",
    "Por el plan, como un cuadrado del ancho que se dijo: mire y mida antes del arranque.",
  ],
  [
    "The sessions of the last 24 hours kept here, without hearing protection: add what else the day had.",
    "Las sesiones de las últimas 24 horas guardadas aquí, sin protección auditiva: sume lo demás del día.",
  ],
  [
    "One of its types gives no level for a post: there the dose is not known.",
    "Uno de sus tipos no da nivel para un puesto: ahí no se sabe la dosis.",
  ],
  [
    "Neither oil nor air temperature has been read.",
    "No se ha leído la temperatura del aceite ni la del aire.",
  ],
  [
    "Below 0 degC the line is extrapolated: wax and yield leave it.",
    "Bajo 0 °C la línea se extrapola: cera y fluencia se salen de ella.",
  ],
  [
    "By the air's temperature: oil that stood long enough is as cold.",
    "Por la temperatura del aire: aceite que estuvo parado bastante está igual de frío.",
  ],
  [
    "Warm cylinders over cold oil are no answer: feel sump, lines and cooler.",
    "Cilindros tibios con aceite frío no bastan: toque cárter, líneas y radiador.",
  ],
  ["Advice alone: the order is the crew's.", "Solo un consejo: el orden es de la tripulación."],
  ["The plan has another order.", "El plan tiene otro orden."],
  [
    "Not every engine's pressure and speed are read.",
    "No están leídas la presión y las rpm de todos los motores.",
  ],
  ["Number {1} highest, number {2} lowest.", "Motor {1} el más alto, motor {2} el más bajo."],
  ["The starter is engaged.", "El arrancador está accionado."],
  [
    "An estimate beside the ladder: the ladder decides.",
    "Una estimación junto a la escalera: decide la escalera.",
  ],
  [
    "The temperature has not been read: the most restrictive limits are taken.",
    "No se ha leído la temperatura: se toman los límites más estrictos.",
  ],
  [
    "No verdict by single readings: {1}. Enter a meter's record.",
    "Sin veredicto por lecturas sueltas: {1}. Anote el registro de un medidor.",
  ],
  ["No verdict: {1}.", "Sin veredicto: {1}."],
  [
    "The readings cannot say yet how long: read again, and keep the power as it is.",
    "Las lecturas todavía no dicen cuánto falta: lea otra vez, y mantenga la potencia como está.",
  ],
  ["Power changed midway is not in the error.", "Un cambio de potencia a medio camino no está en el error."],
];
