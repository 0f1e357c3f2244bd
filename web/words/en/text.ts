import { air } from "./air.ts";
import { checks, engines, ground, guard, options, plan, posts, title } from "./aircraft.ts";
import { app, elsewhere, fault, keypad, language, net, ramp, signIn, update } from "./entry.ts";
import { ask, entry, figure, standing, stops, times } from "./panel.ts";
import { caution, light } from "./seen.ts";
import { connection, senses, session, supervisor } from "./session.ts";
import { worked } from "./worked.ts";

/** All words of the panels themselves in English. Every other language has the same shape. */
export const text = {
  air,
  app,
  ask,
  caution,
  checks,
  connection,
  elsewhere,
  engines,
  entry,
  fault,
  figure,
  ground,
  guard,
  keypad,
  language,
  light,
  net,
  options,
  plan,
  posts,
  ramp,
  senses,
  session,
  signIn,
  standing,
  stops,
  supervisor,
  times,
  title,
  update,
  worked,
};

export type Text = typeof text;
