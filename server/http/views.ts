import { z } from "zod";
import { POSTS } from "../../shared/protocol/posts.ts";

/** What routes answer with, where more than one does. A field not named here cannot leak. */
export const personView = z.object({
  id: z.string(),
  name: z.string(),
  handle: z.string(),
  mayHold: z.array(z.enum(POSTS)),
  demo: z.boolean(),
});

export const deviceView = z.object({ id: z.string(), name: z.string() });
