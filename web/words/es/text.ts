import type { Text } from "../en/text.ts";
import { checks, ground, options, plan, posts, title } from "./aircraft.ts";
import { app, fault, net, ramp, update } from "./entry.ts";
import { ask, entry, standing, stops, times } from "./panel.ts";
import { caution, light } from "./seen.ts";
import { connection, session } from "./session.ts";
import { worked } from "./worked.ts";

export const text: Text = {
  app,
  ask,
  caution,
  checks,
  connection,
  entry,
  fault,
  ground,
  light,
  net,
  options,
  plan,
  posts,
  ramp,
  session,
  standing,
  stops,
  times,
  title,
  update,
  worked,
};
