import { z } from "zod";
import { line } from "../protocol/text.ts";

/** The house itself: the organisation whose register it is. There is one. */
export const houseSchema = z.strictObject({ id: z.literal("house"), name: line(60) });
