import { z } from "zod";
import { idSchema } from "../protocol/text.ts";
import { rehearsalScriptSchema } from "../rehearsal/script.ts";

/** A script that the house wrote or took in. The id is the script's. */
export const houseScriptSchema = z.strictObject({
  id: idSchema,
  script: rehearsalScriptSchema,
  /** Nobody begins with it any more; it can be brought back. */
  retired: z.boolean(),
});
export type HouseScript = z.infer<typeof houseScriptSchema>;
