import { z } from "zod";
import { POSTS } from "../../shared/protocol/posts.ts";
import { named } from "./named.ts";

/** Response shapes that several routes use. A field not named here is not sent. */
export const personView = named(
  "Person",
  z.object({
    id: z.string(),
    name: z.string(),
    handle: z.string(),
    mayHold: z.array(z.enum(POSTS)),
    demo: z.boolean(),
  }),
);

export const deviceView = named("Device", z.object({ id: z.string(), name: z.string() }));

export const typeVersionView = named(
  "TypeVersion",
  z.object({
    id: z.string(),
    version: z.number(),
    name: z.string(),
    status: z.enum(["draft", "approved", "superseded"]),
    author: z.string(),
    approvedBy: z.string().nullable(),
    approvedAt: z.number().nullable(),
    changedAt: z.number(),
  }),
);
