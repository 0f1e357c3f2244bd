import type { AccountWords } from "../en/accounts.ts";

export const accounts: AccountWords = {
  title: "Otros sistemas",
  lead: "Cuentas para programas: una pantalla de pared, mantenimiento, un instrumento. No ocupan puesto ni dan señales.",
  none: "No hay ninguna.",
  add: "Crear una cuenta",
  name: "Nombre del sistema",
  until: "Último día",
  scope: "Lo que puede hacer",
  of: { pushReadings: "Matrícula de la aeronave", pushWeather: "Campo, como en los planes" },
  scopes: {
    readRecords: "Leer registros",
    readLive: "Leer lo que pasa ahora",
    dueCalendar: "Leer los vencimientos como calendario",
    pushReadings: "Enviar lecturas de una aeronave",
    pushWeather: "Enviar el tiempo de un campo",
  },
  make: "Crearla",
  leave: "Dejarlo",
  tokenOf: (name) => `Clave de ${name}`,
  once: "Copie la clave ahora. No se muestra otra vez.",
  calendarAddress:
    "Dé esta dirección a un programa de calendario. Quien la tiene lee los vencimientos, con nombres de personas, hasta que usted termine la cuenta.",
  done: "Está copiada",
  endsOn: (day) => `Último día ${day}`,
  revoked: "Terminada",
  revoke: "Terminarla",
  revokeSure: "Toque otra vez para terminarla",
};
