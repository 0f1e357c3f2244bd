import { z } from "zod";
import { LIGHTNING_ACTS } from "../protocol/lightningActs.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import { factorIn, limitIn, secondsSchema, sourceSchema } from "./limit.ts";

const metres = (least: number, most: number) => limitIn(["m", "ft"], least, most);
const neighbour = z.strictObject({
  around: metres(0, 1000),
  behind: metres(0, 1000),
  /** Fastest stream in which this kind may stand. */
  wind: limitIn(["kt", "m/s", "km/h"], 0.1, 100),
});

const actOf = <P extends Post>(post: P) =>
  z.strictObject({ act: z.enum(LIGHTNING_ACTS[post]), source: sourceSchema });

/** Clear ground around the aircraft. The figures of the stream are assumptions of an estimate, not limits. */
export const rampSchema = z.strictObject({
  guard: z
    .strictObject({
      /** The guard's place before the first start: metres aft of the nose and to starboard. */
      waits: z.strictObject({
        x: z.number().min(-100).max(200),
        y: z.number().min(-100).max(100),
        /** Absent in older types. */
        source: sourceSchema.optional(),
      }),
      /** Distance from the propeller's tip, outboard. */
      standOff: metres(0, 100),
      /**
       * Distance ahead of the propeller's plane, negative behind; and the farthest ahead when the usual place is in
       * another arc or stream.
       */
      ahead: metres(-300, 300),
      aheadMost: metres(-300, 300),
      /** Distance to keep from every disc that turns. */
      arcMargin: metres(0, 100),
      /** Fastest stream of a running engine in which the guard may walk; needs `jet`. */
      stream: limitIn(["kt", "m/s", "km/h"], 0.1, 100).optional(),
    })
    .optional(),
  distances: z
    .strictObject({ fuelling: neighbour, building: neighbour, aircraft: neighbour, public: neighbour })
    .optional(),
  /** Shaft power while starting and idling, and the assumptions about how its stream slows. */
  jet: z
    .strictObject({
      power: limitIn(["kW"], 1, 5000),
      figureOfMerit: factorIn(0.05, 1),
      decay: factorIn(1, 20),
      halfWidth: factorIn(0.01, 1),
      groundFactor: factorIn(1, 5),
    })
    .optional(),
  /** Sound level at each post while any engine runs, and the rule for the day's dose. */
  noise: z
    .strictObject({
      posts: z.strictObject(
        Object.fromEntries(POSTS.map((p) => [p, limitIn(["dBA"], 40, 150)])) as Record<
          (typeof POSTS)[number],
          ReturnType<typeof limitIn<"dBA">>
        >,
      ),
      criterion: limitIn(["dBA"], 70, 100),
      exchange: limitIn(["dBA"], 1, 10),
      threshold: limitIn(["dBA"], 40, 100),
    })
    .optional(),
  /**
   * Work stops after a flash within this distance, and resumes this long after the last one. Until then each post is
   * asked to do this; a type that does not say asks for the first act of each post.
   */
  lightning: z
    .strictObject({
      stopWithin: limitIn(["mi"], 0.1, 50),
      resumeAfter: secondsSchema,
      acts: z
        .strictObject({
          cockpit: actOf("cockpit"),
          fireGuard: actOf("fireGuard"),
          groundPower: actOf("groundPower"),
          supervisor: actOf("supervisor"),
        })
        .optional(),
    })
    .optional(),
});
export type RampData = z.infer<typeof rampSchema>;

const knots = limitIn(["kt"], 0.1, 150);

/** Limits of the wind on the aircraft. Wind from behind and across needs a planned heading. */
export const windSchema = z.strictObject({
  max: knots,
  gustMax: knots,
  tailMax: knots.optional(),
  crossMax: knots.optional(),
});
