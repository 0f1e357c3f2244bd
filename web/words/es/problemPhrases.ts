import type { Phrase } from "../../../shared/words/piece.ts";

/** Details of the server's problems. The server writes them in English, for every client. */
export const problemPhrases: readonly Phrase[] = [
  ["cockpit", "cabina"],
  ["fire guard", "guardia de fuego"],
  ["ground power", "planta externa"],
  ["supervisor", "supervisor"],
  [
    "{1} is allocated to {2}, session {3}: end that session first, or take another",
    "{1} está asignado a {2}, sesión {3}: termine primero esa sesión, o tome otro",
  ],
  ["The file has faults: nothing was taken in", "El archivo tiene errores: no se aceptó nada"],
  [
    "The house was changed after the file was looked at: look again",
    "La casa cambió después de revisar el archivo: revíselo otra vez",
  ],
  [
    "The house was changed meanwhile: look at the file again",
    "La casa cambió mientras tanto: revise el archivo otra vez",
  ],
  ["a quoted cell does not end", "una celda entre comillas no termina"],
  ["a quoted cell is followed by other text", "hay más texto después de una celda entre comillas"],
  [
    "a quotation mark stands in a cell that is not quoted",
    "hay comillas en una celda que no está entre comillas",
  ],
  ["the first line must name the column {1}", "la primera línea debe nombrar la columna {1}"],
  ["is named twice", "aparece dos veces"],
  ["is no column of this list: {1}", "no es columna de esta lista: {1}"],
  ["more than {1} lines", "más de {1} líneas"],
  ["has {1} cells, and the first line has {2}", "tiene {1} celdas, y la primera línea tiene {2}"],
  ["is on line {1} already", "ya está en la línea {1}"],
  ["is changed on its page, with a reason", "se cambia en su página, con un motivo"],
  ["is changed on the page of people", "se cambia en la página de personas"],
  [
    "is for a new person: replace a PIN on the page of people",
    "es para una persona nueva: un PIN se cambia en la página de personas",
  ],
  ["is your own: another person changes it", "es de usted: lo cambia otra persona"],
  ["a piece of the kind {1} has none", "el equipo de la clase {1} no lo tiene"],
  ["looks like {1}, the name of {2}", "se parece a {1}, el nombre de {2}"],
  [
    "only the demo's people begin a scripted crew",
    "solo las personas de la demostración llaman a una tripulación de guion",
  ],
  [
    "{1} crews play already: watch one of them, or end its session",
    "ya hay {1} tripulaciones de guion: mire una, o termine su sesión",
  ],
  ["this server is not reachable yet", "a este servidor aún no se puede llegar"],
  ["every aircraft of the demo is being started", "se están arrancando todos los aviones de la demostración"],
  [
    "nobody of the demo people is left to play",
    "no queda nadie de la demostración que pueda hacer de tripulación",
  ],
  [
    "version {1} of {2} is approved without a seal: make a draft of it and approve that",
    "la versión {1} de {2} está aprobada sin sello: haga un borrador de ella y apruébelo",
  ],
  [
    "version {1} of {2} was sealed with another signing key: restore that key",
    "la versión {1} de {2} se selló con otra clave de firma: restaure esa clave",
  ],
  [
    "version {1} of {2} is not what was approved: restore a backup of the database",
    "la versión {1} de {2} no es lo que se aprobó: restaure una copia de la base de datos",
  ],
  [
    "the stored aircraft types cannot be read: restore a backup of the database",
    "los tipos de avión guardados no se pueden leer: restaure una copia de la base de datos",
  ],
  [
    "the database lacks its guard {1}: stop the server and run npm run doctor",
    "a la base de datos le falta su guarda {1}: detenga el servidor y ejecute npm run doctor",
  ],
  [
    "version {1} of {2} rests on {3} figures that are invented or about another type: it is for the demo alone",
    "la versión {1} de {2} se apoya en {3} valores inventados o de otro tipo: es solo para la demostración",
  ],
  [
    "Sign in first: no valid sign-in came with the request",
    "Entre primero: la entrada no es válida o ya terminó",
  ],
  ["No person with that handle and PIN may sign in here", "Nadie con ese alias y PIN puede entrar aquí"],
  [
    "Too many sign-in attempts from this address: wait {1} s",
    "Demasiados intentos de entrar desde esta dirección: espere {1} s",
  ],
  [
    "Too many requests from this address: wait {1} s",
    "Demasiadas peticiones desde esta dirección: espere {1} s",
  ],
  [
    "Too many requests under this sign-in: wait {1} s",
    "Demasiadas peticiones con esta entrada: espere {1} s",
  ],
  [
    "Too many wrong attempts: try again in {1} s",
    "Demasiados intentos equivocados: pruebe otra vez en {1} s",
  ],
  [
    "This device is not enrolled for you: ask a supervisor for a code, then enrol it",
    "Este dispositivo no está inscrito para usted: pida un código a un supervisor e inscríbalo",
  ],
  [
    "Send a DPoP proof by this device's key for this very request, with the nonce of this answer's DPoP-Nonce",
    "Este dispositivo no probó quién es: cargue la página otra vez y entre",
  ],
  [
    "body.device: is needed where no key proves itself",
    "Este dispositivo no dijo quién es: cargue la página otra vez",
  ],
  [
    "This server goes by another name: name it in CHOCKSIDE_ORIGINS",
    "Este servidor tiene otro nombre: póngalo en CHOCKSIDE_ORIGINS",
  ],
  [
    "Events cannot be recorded: go on by hand signals and paper",
    "No se pueden registrar eventos: siga con señales de mano y papel",
  ],
  [
    "The record cannot be read or written now: go on by hand signals and paper",
    "Ahora no se puede leer ni escribir el registro: siga con señales de mano y papel",
  ],
  [
    "Metrics are for this machine, or for the token in CHOCKSIDE_METRICS_TOKEN",
    "Las métricas son para esta máquina, o para la clave en CHOCKSIDE_METRICS_TOKEN",
  ],
  ["The body is larger than the server takes", "Es más grande de lo que acepta el servidor"],
  ["Send JSON, with content-type application/json", "Mande JSON, con content-type application/json"],
  ["The body is not JSON", "Lo enviado no es JSON"],
  ["There is nothing at this address", "No hay nada en esta dirección"],
  ["There is nothing at {1}", "No hay nada en {1}"],
  ["The panels are not built: run npm run build", "Los paneles no están construidos: ejecute npm run build"],
  [
    "It was logged; nothing of what you asked is certain to have been done",
    "Quedó anotado; no es seguro que se haya hecho nada de lo que pidió",
  ],
  ["The session has {1} events: ask for no more of them", "La sesión tiene {1} eventos: no pida más"],
  ["Event {1} is not among the first {2}", "El evento {1} no está entre los primeros {2}"],
  ["{1} events are no beginning of {2}", "{1} eventos no son comienzo de {2}"],
  [
    "This record has {1} events and its full log on paper takes {2}: print the short form, or export it",
    "Este registro tiene {1} eventos y en papel caben {2}: expórtelo",
  ],
  ["Your other sheets are being made: wait for them", "Sus otras hojas se están haciendo: espérelas"],
  [
    "Too many sheets are being made: ask again in a minute",
    "Se están haciendo demasiadas hojas: pídala otra vez en un minuto",
  ],
  [
    "The sheet could not be made: ask again, or export the record",
    "No se pudo hacer la hoja: pídala otra vez, o exporte el registro",
  ],
  ["has {1} entries, more than any list here", "tiene {1} elementos, más que cualquier lista de aquí"],
  ["lies deeper than any part of a type", "está a más profundidad que cualquier parte de un tipo"],
  ["No unfinished type {1} is there", "No hay ningún tipo {1} sin terminar"],
  ["A type {1} is begun already: go on with it", "Ya hay un tipo {1} empezado: siga con él"],
  ["has more values than any aircraft type", "tiene más valores que cualquier tipo de avión"],
  [
    "Those qualified for cockpit or supervisor plan a session",
    "Planea una sesión quien puede estar en cabina o de supervisor",
  ],
  [
    "You planned {1} sessions that are not over: end one first",
    "Usted planeó {1} sesiones que no han terminado: termine una primero",
  ],
  [
    "You opened many sessions that are over: wait a moment",
    "Abrió muchas sesiones terminadas: espere un momento",
  ],
  [
    "Somebody else is signed in on this device: let them sign out first",
    "Otra persona está dentro en este dispositivo: que salga primero",
  ],
  [
    "This cuts off the {1} of {2}: send confirm and your PIN to do it all the same",
    "Esto deja a {2} sin {1}: mande confirm y su PIN para hacerlo de todos modos",
  ],
  ["That is not {1}'s PIN: nobody was cut off", "Ese no es el PIN de {1}: no se dejó fuera a nadie"],
  ["there is no session {1}", "no hay sesión {1}"],
  ["No session has this code", "Ninguna sesión tiene este código"],
  [
    "only the demo's people have the invented year made",
    "solo las personas de la demostración pueden hacer el año inventado",
  ],
  ["There is no aircraft with this id", "Ningún avión tiene este identificador"],
  ["No aircraft of the register has or had this engine", "Ningún avión de la ficha tiene ni tuvo este motor"],
  [
    "must be the six characters shown with the session",
    "deben ser los seis caracteres que muestra la sesión",
  ],
  [
    "This commandId planned another session: use a new one",
    "Ese pedido ya planeó otra sesión: empiece de nuevo",
  ],
  // Plans.
  ["no such aircraft", "no existe ese avión"],
  [
    "no version of its type {1} is approved: a draft cannot be planned",
    "ninguna versión de su tipo {1} está aprobada: un borrador no se puede planear",
  ],
  [
    "version {1} of {2} cannot be planned: version {3} is the approved one",
    "la versión {1} de {2} no se puede planear: la aprobada es la versión {3}",
  ],
  [
    "must name engines 1 to {1} of {2}, each at most once",
    "debe nombrar motores del 1 al {1} de {2}, cada uno a lo más una vez",
  ],
  ["say why: {1} is advised", "diga por qué: se aconseja {1}"],
  [
    "needed to place what stands near: its bearings are degrees true",
    "hace falta para situar lo que hay cerca: sus marcaciones son grados verdaderos",
  ],
  ["no such person", "no existe esa persona"],
  ["{1} is not qualified to hold this post", "{1} no está habilitado para este puesto"],
  ["{1} is already named for another post", "{1} ya está en otro puesto"],
  // People and devices.
  ["Another person must do this to you", "Otra persona debe hacerle esto a usted"],
  ["There is no such person", "No existe esa persona"],
  ["There is no such device", "No existe ese dispositivo"],
  ["{1} is not qualified as supervisor", "{1} no está habilitado como supervisor"],
  [
    "This code is wrong, was used, or is too old: ask for another",
    "Este código está mal, ya se usó o es muy viejo: pida otro",
  ],
  [
    "This device was enrolled before: make a new key on it",
    "Este dispositivo ya estuvo inscrito: haga en él una llave nueva",
  ],
  ["The handle {1} is taken: choose another", "El alias {1} ya está tomado: elija otro"],
  [
    "{1} is called {2}, which looks like {3}: add what tells them apart",
    "{1} se llama {2}, que se parece a {3}: agregue lo que los distinga",
  ],
  [
    "Only a device enrolled from the server's console enters the first supervisor",
    "El primer supervisor se escribe solo en un dispositivo inscrito desde la consola del servidor",
  ],
  [
    "This house has a supervisor: sign in, or ask that supervisor to add you",
    "Esta casa ya tiene supervisor: entre, o pídale que lo agregue",
  ],
  [
    "The first person must be qualified as supervisor",
    "La primera persona debe estar habilitada como supervisor",
  ],
  ["must name each post once", "debe nombrar cada puesto una sola vez"],
  ["body.person.pin", "PIN"],
  ["body.person.handle", "alias"],
  ["body.person.name", "nombre"],
  ["body.name", "nombre"],
  ["body.house", "nombre de la casa"],
  // Aircraft types.
  ["There is no version {1} of a type {2}", "No hay versión {1} de un tipo {2}"],
  ["There is a type {1} already: make a draft of it", "Ya hay un tipo {1}: haga un borrador de él"],
  ["must stay {1}", "debe seguir siendo {1}"],
  [
    "{1} had a hand in version {2}: a second person approves it",
    "{1} participó en la versión {2}: la aprueba una segunda persona",
  ],
  [
    "Version {1} is approved and newer: make a draft from it",
    "La versión {1} está aprobada y es más nueva: haga un borrador de ella",
  ],
  [
    "Version {1} of {2} was approved by {3}: make a new draft from it",
    "La versión {1} de {2} fue aprobada por {3}: haga un borrador nuevo de ella",
  ],
  [
    "Version {1} was changed after you read it: read it again, then make your change anew",
    "La versión {1} cambió después de que usted la leyó: léala otra vez y haga su cambio de nuevo",
  ],
  ["That is not {1}'s PIN: nothing was approved", "Ese no es el PIN de {1}: no se aprobó nada"],
  ["That is not {1}'s PIN: nothing was set aside", "Ese no es el PIN de {1}: no se exceptuó nada"],
  ["That is not {1}'s PIN: it was not changed", "Ese no es el PIN de {1}: no se cambió"],
  [
    "That is not {1}'s PIN: no passkey was made",
    "Ese no es el PIN de {1}: no se hizo ninguna llave de acceso",
  ],
  ["Nobody with that passkey may sign in here", "Nadie con esa llave de acceso puede entrar aquí"],
  [
    "That is not the passkey that was asked for: ask again",
    "Esa no es la llave de acceso que se pidió: pida otra vez",
  ],
  [
    "Passkeys are for enrolled devices: enrol this one first",
    "Las llaves de acceso son para dispositivos inscritos: inscriba este primero",
  ],
  [
    "There are none under the name you came by: sign in by PIN, and have it named in CHOCKSIDE_ORIGINS",
    "No hay ninguna con el nombre por el que ha entrado: entre con PIN, y que se ponga ese nombre en CHOCKSIDE_ORIGINS",
  ],
  ["You have no such passkey", "Usted no tiene esa llave de acceso"],
  ["You have no such sign-in", "Usted no tiene esa entrada"],
  ["must be another one", "debe ser otro"],
  [
    "must not be one that many people use, such as 123456 or 121212",
    "no debe ser uno que use mucha gente, como 123456 o 121212",
  ],
  // The house's register.
  [
    "Send If-Match with the entity tag of what you read",
    "Falta decir sobre qué estado es: lea la página otra vez",
  ],
  ["{1} is in the register already", "{1} ya está en el registro"],
  ["There is no aircraft {1} in the register", "No hay avión {1} en el registro"],
  [
    "{1} was changed after you read it: read it again, then make your change anew",
    "{1} cambió después de que usted lo leyó: léalo otra vez y haga su cambio de nuevo",
  ],
  [
    "Those qualified for cockpit or supervisor enter hours",
    "Anota horas quien puede estar en cabina o de supervisor",
  ],
  ["no version of a type {1} is approved", "no hay ninguna versión aprobada de un tipo {1}"],
  ["version {1} of {2} is the approved one", "la versión aprobada de {2} es la {1}"],
  ["the type has engines 1 to {1} only", "el tipo solo tiene motores del 1 al {1}"],
  ["There is no {1} {2} in the register", "No hay {1} {2} en el registro"],
  ["equipment", "equipo"],
  ["house", "casa"],
  ["{1} is not qualified for any post", "{1} no está calificado para ningún puesto"],
  [
    "The house was changed after you read it: read it again, then make your change anew",
    "La casa cambió después de que usted la leyó: léala otra vez y haga su cambio de nuevo",
  ],
  ["{1} is of the kind {2}", "{1} es de la clase {2}"],
  ["no wire {1} in AC 43.13-1B Table 11-9: {2}", "ningún cable {1} en AC 43.13-1B tabla 11-9: {2}"],
  [
    "{1} A is below the {2} A that it gives all the time",
    "{1} A es menos que los {2} A que da todo el tiempo",
  ],
  ["the register has nothing with the label {1}", "el registro no tiene nada con la etiqueta {1}"],
  ["{1} is named twice", "{1} está dos veces"],
  ["used up", "gastado"],
  ["broken", "roto"],
  ["out of service", "fuera de servicio"],
  ["weighing", "pesaje"],
  ["test", "prueba"],
  [
    "{1} is {2} ({3}): a supervisor puts it back into service",
    "{1} está {2} ({3}): un supervisor lo vuelve a poner en servicio",
  ],
  ["{1} is overdue: its {2} held until {3}", "{1} está vencido: su {2} valió hasta {3}"],
  [
    "{1} has no date for its {2}: a supervisor enters it",
    "{1} no tiene fecha de {2}: un supervisor la ingresa",
  ],
  ["currency", "vigencia"],
  ["{1} is not qualified as cockpit or supervisor", "{1} no está calificado como cabina ni como supervisor"],
  ["{1} of {2} has lapsed or has no date", "{1} de {2} venció o no tiene fecha"],
  ["Change your own PIN with the old one", "Cambie su propio PIN con el anterior"],
  ["That is not {1}'s PIN: nothing was changed", "Ese no es el PIN de {1}: no se cambió nada"],
  ["{1} is fitted at {2} already", "{1} ya está montado en {2}"],
  [
    "were {1} h: a supervisor enters fewer, with a reason",
    "eran {1} h: menos las anota un supervisor, con un motivo",
  ],
  [
    "is retired: a supervisor takes it back into service first",
    "está retirado: primero un supervisor lo devuelve al servicio",
  ],
  [
    "version {1} of its type is not approved: a supervisor moves it to version {2}",
    "la versión {1} de su tipo no está aprobada: un supervisor lo pasa a la versión {2}",
  ],
  [
    "version {1} of its type is approved and it is on version {2}: a supervisor looks at what changes and moves it",
    "está aprobada la versión {1} de su tipo y está en la {2}: un supervisor mira lo que cambia y lo pasa",
  ],
  // Malformed requests, by the path of the fault.
  ["body.pin", "PIN"],
  ["body.next", "PIN nuevo"],
  ["body.handle", "alias"],
  ["body.code", "código"],
  ["body.place", "lugar"],
  ["must be at least {1} characters", "debe tener al menos {1} caracteres"],
  ["must be at most {1} characters", "debe tener a lo más {1} caracteres"],
  ["must not be empty", "no debe estar vacío"],
  ["must not hold control or invisible characters", "no debe tener caracteres de control ni invisibles"],
  ["must be a plain identifier", "debe ser un identificador simple"],
  ["is not valid", "no es válido"],
  ["aircraft", "avión"],
  ["typeVersion", "versión del tipo"],
  ["order", "orden"],
  ["orderReason", "motivo del orden"],
  ["headingDeg", "rumbo de la nariz"],
  ["crew.cockpit", "cabina"],
  ["crew.fireGuard", "guardia de fuego"],
  ["crew.groundPower", "planta externa"],
  ["crew.supervisor", "supervisor"],
];
