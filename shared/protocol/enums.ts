import { z } from "zod";
import { POSTS } from "./posts.ts";
import { ANSWERS, CHANNELS, FIRE_PLACES, SIGNAL_KINDS } from "./signals.ts";
import { STAGES } from "./stages.ts";

/** Schemas of the lists. They are apart from the lists, so that a panel can draw itself before it loads zod. */
export const postSchema = z.enum(POSTS);
export const stageSchema = z.enum(STAGES);
export const signalKindSchema = z.enum(SIGNAL_KINDS);
export const channelSchema = z.enum(CHANNELS);
export const answerSchema = z.enum(ANSWERS);
export const firePlaceSchema = z.enum(FIRE_PLACES);
