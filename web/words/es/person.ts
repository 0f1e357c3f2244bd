import type { PersonWords } from "../en/person.ts";

export const person: PersonWords = {
  pinAgain: "Su PIN otra vez",
  asideWhy: "Exceptuar una condición hace menos seguro el arranque. Por eso necesita su PIN.",
  asideOffline: "Sin el servidor no se puede exceptuar ninguna condición. Cumpla la condición o dé alto.",
  checking: "Comprobando…",
  failed: "No funcionó.",
  title: "Personas",
  pin: "Su PIN",
  change: "Cambiarlo",
  changed: "Está cambiado. En los demás dispositivos ya no está dentro.",
  rule: (least) =>
    `${least} caracteres o más, y ninguno que use mucha gente, como 123456 o 121212. En los demás dispositivos tendrá que entrar otra vez.`,
  steps: { old: "Su PIN de ahora", next: "El nuevo", again: "El nuevo otra vez" },
  notAlike: "Los dos son distintos. No se cambió nada.",
  goOn: "Seguir",
  leave: "Dejarlo como está",
  signIns: "Dónde ha entrado usted",
  since: (from, used) => `Desde ${from} UTC, último uso ${used} UTC`,
  here: "Aquí",
  end: "Terminarla",
  passkeys: "Sus llaves de acceso",
  passkeysWhat:
    "Con una llave de acceso usted entra con el bloqueo de este dispositivo, sin el PIN. Exceptuar una condición y aprobar siguen necesitando el PIN.",
  passkeysNotHere: "Puede hacer una en un dispositivo inscrito cuyo navegador las admita.",
  passkeyMade: (when) => `Hecha ${when} UTC`,
  takeBack: "Retirarla",
  makePasskey: "Hacer una llave de acceso",
  byPasskey: "Entrar con llave de acceso",
  noPasskey: "No se dio ninguna llave de acceso.",
  everybody: "Todos",
  everybodyWhat:
    "La persona que usted bloquea queda fuera de inmediato. No puede entrar hasta que usted lo permita otra vez.",
  add: "Agregar una persona",
  changePerson: "Cambiar",
  changeOne: (name) => `Cambiar ${name}`,
  name: "Nombre",
  handle: "Alias, para entrar",
  firstPin: "Primer PIN",
  firstPinWhat: (least) => `${least} cifras o más. Dígaselo a la persona. La persona lo cambia después.`,
  posts: "Puestos para los que está habilitada la persona",
  currentUntil: "Capacitación vigente hasta (opcional)",
  current: (day, days, ending) => {
    if (days <= 0) return `Capacitación vencida desde el ${day}`;
    return ending
      ? `Capacitación vigente hasta el ${day}: ${days === 1 ? "queda 1 día" : `quedan ${days} días`}`
      : `Capacitación vigente hasta el ${day}`;
  },
  save: "Guardar",
  stopped: "Entrada bloqueada",
  stop: "Bloquear la entrada",
  stopSure: "Toque otra vez para bloquear",
  onDuty: "De turno ahora",
  onDutyWhat:
    "Un arranque puede depender de esta persona. Avise antes a la tripulación. Otra persona debe tomar el puesto.",
  cutOff: "Bloquear de todos modos",
  leaveOnDuty: "No bloquear",
  letIn: "Permitir la entrada otra vez",
};
