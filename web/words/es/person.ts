import type { PersonWords } from "../en/person.ts";

export const person: PersonWords = {
  pinAgain: "Su PIN otra vez",
  asideWhy: "Exceptuar una condición quita parte de la seguridad, por eso pide su PIN.",
  asideOffline:
    "Sin el servidor no se puede exceptuar nada: no se puede comprobar ningún PIN ni preguntar a nadie más. Cumpla la condición o detenga.",
  checking: "Comprobando…",
  failed: "No funcionó.",
  title: "Personas",
  pin: "Su PIN",
  change: "Cambiarlo",
  changed: "Está cambiado. Sus sesiones en otros dispositivos han terminado.",
  rule: (least) =>
    `${least} caracteres o más, y ninguno que use mucha gente, como 123456 o 121212. Sus sesiones en otros dispositivos terminan.`,
  steps: { old: "Su PIN de ahora", next: "El nuevo", again: "El nuevo otra vez" },
  notAlike: "Los dos no eran iguales: no se cambió nada.",
  goOn: "Seguir",
  leave: "Dejarlo como está",
  signIns: "Dónde ha entrado usted",
  since: (from, used) => `Desde ${from} UTC, último uso ${used} UTC`,
  here: "Aquí",
  end: "Terminarla",
  passkeys: "Sus llaves de acceso",
  passkeysWhat:
    "Con una se entra por el bloqueo de este dispositivo, sin el PIN. Exceptuar una condición y aprobar siguen pidiendo el PIN.",
  passkeysNotHere: "Se puede hacer una en un dispositivo inscrito cuyo navegador las tenga.",
  passkeyMade: (when) => `Hecha ${when} UTC`,
  takeBack: "Retirarla",
  makePasskey: "Hacer una llave de acceso",
  byPasskey: "Entrar con llave de acceso",
  noPasskey: "No se dio ninguna llave de acceso.",
  everybody: "Todos",
  everybodyWhat:
    "Quien pierde el acceso queda fuera de inmediato y no puede entrar hasta que se le admita otra vez.",
  add: "Agregar una persona",
  changePerson: "Cambiar",
  changeOne: (name) => `Cambiar ${name}`,
  name: "Nombre",
  handle: "Alias, para entrar",
  firstPin: "Primer PIN",
  firstPinWhat: (least) => `${least} cifras o más. Dígaselo a la persona, que luego lo cambia.`,
  posts: "Puestos para los que está habilitada la persona",
  currentUntil: "Vigente para el servicio hasta (puede faltar)",
  current: (day, days, ending) => {
    if (days <= 0) return `Sin vigencia desde el ${day}`;
    return ending
      ? `Vigente hasta el ${day}: ${days === 1 ? "queda 1 día" : `quedan ${days} días`}`
      : `Vigente hasta el ${day}`;
  },
  save: "Guardar",
  stopped: "Sin acceso",
  stop: "Quitar el acceso",
  stopSure: "Toque otra vez para quitarlo",
  onDuty: "De turno ahora",
  onDutyWhat:
    "Un arranque puede depender de esta persona. Avise antes a la tripulación y que otra tome el puesto.",
  cutOff: "Quitar el acceso de todos modos",
  leaveOnDuty: "Dejarla de turno",
  letIn: "Admitir otra vez",
};
