import { z } from "zod";
import { idSchema } from "../protocol/text.ts";
import { limitIn } from "./limit.ts";

const rpm = limitIn(["rpm"], 0, 1000);

/** Requirements of a run-up before release. */
export const runUpSchema = z.strictObject({
  magneto: z.strictObject({ maxDrop: rpm, maxDifference: rpm }),
  /** Absent where the propeller does not feather. */
  feather: z.strictObject({ maxDrop: rpm, recovery: rpm }).optional(),
  /** Manifold pressures of all engines at one speed must agree. Names the gauges for pressure and speed. */
  manifold: z.strictObject({
    spread: limitIn(["inHg"], 0, 20),
    rpmTolerance: rpm,
    pressureGauge: idSchema,
    speedGauge: idSchema,
  }),
  /** Gauges to read at the run-up, each judged by its own marks. */
  gauges: z.array(idSchema).max(20),
});
export type RunUpData = z.infer<typeof runUpSchema>;
