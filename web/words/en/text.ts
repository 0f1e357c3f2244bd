import { air } from "./air.ts";
import { checks, engines, ground, guard, options, plan, posts, title } from "./aircraft.ts";
import { board } from "./board.ts";
import { defects, planChange } from "./changes.ts";
import { charts, past } from "./charts.ts";
import {
  app,
  atAircraft,
  elsewhere,
  fault,
  keypad,
  language,
  net,
  ramp,
  signIn,
  units,
  update,
} from "./entry.ts";
import { ask, blades, entry, figure, standing, stops, times, weather } from "./panel.ts";
import { problems } from "./problems.ts";
import { caution, light, screen } from "./seen.ts";
import { connection, record, senses, session, supervisor } from "./session.ts";
import { trace } from "./trace.ts";
import { worked } from "./worked.ts";

/** All words of the panels themselves in English. Every other language has the same shape. */
export const text = {
  air,
  app,
  ask,
  blades,
  board,
  caution,
  charts,
  checks,
  connection,
  defects,
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
  past,
  plan,
  planChange,
  posts,
  problems,
  ramp,
  atAircraft,
  record,
  screen,
  senses,
  session,
  signIn,
  standing,
  stops,
  supervisor,
  times,
  title,
  trace,
  units,
  update,
  weather,
  worked,
};

export type Text = typeof text;
