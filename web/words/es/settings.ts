import type { SettingsWords } from "../en/settings.ts";

/** The page of the house: its name, and its rules. */
export const settings: SettingsWords = {
  title: "La casa",
  lead: "Su nombre y sus reglas. Los cambia un supervisor.",
  name: "Nombre de la casa",
  overdueTitle: "Cuando vence una fecha del equipo",
  overdueWhat:
    "Impedir: no se puede planear, y su etiqueta se rechaza en el puesto. Avisar: se puede usar, y se muestra la fecha.",
  rules: { bars: "Impedir", warns: "Avisar" },
  save: "Guardar",
  saved: "Guardado.",
};
