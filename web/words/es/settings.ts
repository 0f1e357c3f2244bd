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
  inspectTitle: "Cuando se repara un defecto",
  inspectWhat:
    "Sí: un defecto reparado sigue abierto, e impide el arranque si lo impedía, hasta que lo inspeccione otro supervisor que quien lo reparó. Vale para los arranques que se planean desde entonces, y en la página del avión de inmediato.",
  inspectWho: "Inspección por otra persona",
  inspects: { other: "Sí", same: "No" },
  save: "Guardar",
  saved: "Guardado.",
};
