import type { DeviceWords } from "../en/devices.ts";

export const devices: DeviceWords = {
  title: "Dispositivos",
  lead: "Solo se puede entrar en dispositivos inscritos. Si un dispositivo se pierde, revóquelo: deja de servir de inmediato.",
  again: "Leer otra vez",
  none: "Todavía no hay dispositivos inscritos.",
  enrolledAt: (when, by) => `Inscrito ${when} UTC por ${by}`,
  revokedAt: (when, by) => `Revocado ${when} UTC por ${by}`,
  revoke: "Revocar",
  revokeSure: "Toque otra vez para revocar",
  enrolled: "Inscrito",
  known: (name) => `Este dispositivo se llama ahora ${name}.`,
  enrolThis: "Inscribir este dispositivo",
  how: "Un supervisor muestra un código en la página Dispositivos. Sirve una sola vez, en cinco minutos. Se crea una clave en este dispositivo y nunca sale de él.",
  had: "Este dispositivo ya estaba inscrito: una clave nueva reemplaza la anterior.",
  code: "Código",
  enrolling: "Inscribiendo…",
  enrol: "Inscribir",
  newCode: "Código para un dispositivo nuevo",
  scan: (name, address) =>
    `En ${name}, escanee esto o abra ${address} e ingrese el código. Sirve una sola vez, en cinco minutos. No lo muestre a nadie más.`,
  withCode: (code) => `Inscribir con el código ${code}`,
  done: "Listo",
  name: "Nombre del dispositivo nuevo",
  show: "Mostrar un código",
};
