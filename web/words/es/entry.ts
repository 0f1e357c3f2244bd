import type { Text } from "../en/text.ts";

export const net: Text["net"] = {
  noServer: "El servidor no responde. Revise la red de este dispositivo.",
  status: (status) => `El servidor dijo ${status}.`,
  notFetched: "No se pudo cargar.",
  noList: "No se puede obtener la lista.",
  notSecure: "Esta dirección no es segura: abra los paneles por https y luego inscriba el dispositivo.",
  wire: {
    malformed: "El servidor no lo entendió: cargue este panel otra vez",
    tooLarge: "Más grande de lo que acepta el servidor",
    tooMany: "Demasiados mensajes: espere un momento",
    protocolMismatch: "Este panel es muy viejo: cárguelo otra vez",
    signInNeeded: "La sesión terminó: entre otra vez",
    proofNeeded: "No se pudo comprobar este dispositivo: entre otra vez",
    pinNeeded: "Esto necesita su PIN: envíelo otra vez con su PIN",
    noSuchSession: "No existe esa sesión",
    notAvailable: "No registrado: use señales de mano",
  },
};

export const app: Text["app"] = {
  fetching: "Cargando…",
  opening: "Abriendo…",
  notRecorded: "Todavía sin anotar",
  unsettled: "Algo que usted envió no está anotado.",
  unsettledWhere: "Espera en una sesión. Abra la sesión para enviarlo o descartarlo.",
  openSession: "Abrir la sesión",
  partMissing: "No se pudo cargar una parte de este panel. Recargue cuando haya red.",
};

export const fault: Text["fault"] = {
  title: "Esta página no se puede mostrar.",
  what: "Alto: use señales de mano y procedimientos locales. Lo que ya se envió queda guardado y anotado.",
  again: "Cargar de nuevo",
};

export const update: Text["update"] = {
  region: "Versión nueva",
  ready: "Hay una versión nueva.",
  watched: "Otra ventana de este dispositivo muestra una sesión. Deje primero esa sesión.",
  asked: "Empieza solo cuando usted lo diga.",
  take: "Tomar la versión nueva",
  waits: "Hay una versión nueva. Espera hasta que usted deje la sesión.",
  reload: "Recargue este panel",
  mismatch:
    "Este panel y el servidor tienen versiones distintas. Nadie oye lo que usted envía aquí: use señales de mano. Lo que no quedó anotado se conserva.",
  fetching: "Cargando la versión nueva…",
  now: "Recargar ya",
};

export const ramp: Text["ramp"] = {
  title: "La plataforma",
  signedIn: (name) => `Entró como ${name}`,
  plan: "Planear un arranque",
  setting: "Preparando…",
  signOut: "Salir",
  back: "Volver a la plataforma",
  asking: "Preguntando al servidor…",
  nothingNeeded: "Sin paradas ni alertas",
  fire: "Fuego reportado",
  fireAt: (engines) => `Fuego en motor ${engines}`,
  cutAll: "Corte: todos los motores",
  cutAt: (n) => `Corte: motor ${n}`,
  holdBy: (name) => `Alto de ${name}`,
  ready: (n) => `Listo para arrancar motor ${n}`,
};
