import type { Text } from "../en/text.ts";
import { air } from "./air.ts";
import { checks, engines, ground, guard, options, plan, posts, title } from "./aircraft.ts";
import { app, elsewhere, fault, keypad, language, net, ramp, signIn, update } from "./entry.ts";
import { ask, entry, figure, standing, stops, times } from "./panel.ts";
import { caution, light } from "./seen.ts";
import { connection, senses, session, supervisor } from "./session.ts";
import { worked } from "./worked.ts";

export const text: Text = {
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
