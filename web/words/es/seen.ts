import type { Text } from "../en/text.ts";

export const caution: Text["caution"] = {
  short:
    "Apoya las señales de mano, el manual aprobado y las tripulaciones entrenadas; nunca los reemplaza. Un botón aquí es un mensaje, no un paro de emergencia.",
};

export const light: Text["light"] = {
  names: { sun: "Sol", indoor: "Interior", night: "Noche" },
  key: (now: string, next: string) => `Colores para: ${now}. Cambiar a ${next}`,
};
