import type { HouseWords } from "../en/house.ts";

export const house: HouseWords = {
  title: "Una casa nueva",
  lead: "Todavía nadie puede entrar aquí. Primero van este dispositivo y el primer supervisor. Lo demás viene después.",
  empty:
    "Todavía nadie puede entrar aquí. Al arrancar, el servidor mostró un enlace: ábralo en el primer dispositivo.",
  toFirst: "Empezar esta casa",
  over: "Esta casa ya tiene su primer supervisor.",
  overWhat: "Entre, o pida a un supervisor que lo agregue.",
  toSignIn: "Ir a la entrada",
  deviceTitle: "Este dispositivo",
  deviceWhat:
    "Al arrancar, el servidor mostró un enlace con un código. Con él conoce este dispositivo, una sola vez.",
  code: "Código",
  noCode: "¿No hay código o es muy viejo? En el servidor, npm run house -- link muestra otro enlace.",
  begin: "Empezar en este dispositivo",
  beginning: "Empezando…",
  youTitle: "La casa y su primer supervisor",
  house: "Nombre de la casa",
  houseLike: "Vuelo Histórico del Norte",
  name: "Su nombre",
  handle: "Su alias, para entrar",
  handleRule: "Letras y cifras, sin espacios.",
  posts: "Puestos para los que está habilitado, además de supervisor",
  pin: "Su PIN",
  pinRule: (least) => `${least} cifras o más, y ninguno que use mucha gente, como 123456.`,
  pinAgain: "Su PIN otra vez",
  notAlike: "Los dos PIN son distintos. Escríbalos otra vez.",
  goOn: "Seguir",
  enter: "Entrar en esta casa",
  entering: "Entrando…",
  missing: "Antes del primer arranque",
  missingLead: (done, all) => `${done} de ${all} pasos están hechos.`,
  steps: {
    supervisor: "Primer supervisor",
    device: "Un dispositivo inscrito",
    people: "Gente para cada puesto",
    type: "Un tipo de avión aprobado",
    aircraft: "Un avión",
    plan: "El primer plan",
  },
  done: "Hecho",
  open: "Falta",
  lacks: (posts, second) => {
    const nobody = posts === "" ? "" : `Nadie puede estar todavía en ${posts}.`;
    const two = "Hace falta un segundo supervisor: nadie aprueba su propio tipo de avión.";
    return [nobody, ...(second ? [two] : [])].filter((s) => s !== "").join(" ");
  },
  typeWhat: "Un supervisor escribe las cifras del manual y otro las aprueba.",
  draftWaits: "Hay un borrador. Debe aprobarlo un supervisor que no trabajó en él.",
  aircraftWhat: "Necesita un tipo aprobado.",
  aircraftLater: "Viene después del tipo.",
  planWhat: "Lo planea quien puede estar en cabina o de supervisor.",
  planLater: "Viene después del avión.",
  who: "Lo hace un supervisor.",
  act: {
    people: "Agregar gente",
    type: "Ir a los tipos",
    aircraft: "Agregar un avión",
    plan: "Planear un arranque",
    device: "Inscribir un dispositivo",
  },
};
