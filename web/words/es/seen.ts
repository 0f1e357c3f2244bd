import type { Text } from "../en/text.ts";

export const caution: Text["caution"] = {
  short:
    "Apoya las señales de mano, el manual aprobado y las tripulaciones entrenadas; nunca los reemplaza. Un botón aquí es un mensaje, no un paro de emergencia.",
};

export const screen: Text["screen"] = {
  title: "Tamaño en esta pantalla",
  what: "Las teclas deben medir 22 mm de alto, pero ningún navegador sabe cuánto mide un milímetro en su pantalla. Ponga una tarjeta bancaria sobre el contorno y ajuste hasta que tenga el ancho de la tarjeta.",
  unit: "puntos",
  flat: "Ponga la tarjeta a lo largo.",
  upright: "Ponga la tarjeta de pie: la pantalla es más estrecha que su lado largo.",
  found: (mm) => `${mm} puntos por milímetro; un dispositivo igual tiene la misma cifra.`,
  card: "Tarjeta bancaria",
  keep: "Guardar este tamaño",
  usual: "Tamaño usual",
};

export const light: Text["light"] = {
  names: { sun: "Sol", indoor: "Interior", night: "Noche" },
  key: (now: string, next: string) => `Colores para: ${now}. Cambiar a ${next}`,
};
