import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { DemoYear } from "../demo-year.ts";
import type { Directory } from "../store/directory.ts";
import { ProblemError } from "./problem.ts";
import { identityOf } from "./signed-in.ts";

/** A public demo sign-in: it gives access to the demo data only. */
const demoSignIn = z.object({
  handle: z.string(),
  pin: z.string(),
  name: z.string(),
  mayHold: z.array(z.enum(POSTS)),
});
export type DemoSignIn = z.infer<typeof demoSignIn>;

export interface DemoOptions {
  directory: Directory;
  /** Empty when the demo is off. */
  demoSignIns: readonly DemoSignIn[];
  /** True when the sign-in page offers to begin a rehearsal with one touch. */
  crews: boolean;
}

const progress = z.object({
  done: z.boolean(),
  aircraft: z.array(z.string()).describe("The aircraft that have one, once it is done"),
  made: z.number().int(),
  of: z.number().int(),
});

/** Lets a person of the demo have the invented year made. The route exists only while the demo is on. */
export const demoYearRoute: FastifyPluginAsyncZod<{ year: DemoYear }> = async (app, { year }) => {
  app.post(
    "/demo/year",
    {
      config: { costly: true, problems: ["notQualified"] },
      schema: {
        operationId: "makeDemoYear",
        tags: ["history"],
        summary:
          "Begin an invented year of starts of two aircraft of the demo, unless it is there, and see how far it is",
        body: z.strictObject({}),
        response: { 200: progress },
      },
    },
    async (request) => {
      if (!identityOf(request).person.demo)
        throw new ProblemError("notQualified", "only the demo's people have the invented year made");
      return year.progress();
    },
  );
};

export const demoRoute: FastifyPluginAsyncZod<DemoOptions> = async (
  app,
  { directory, demoSignIns, crews },
) => {
  app.get(
    "/demo",
    {
      schema: {
        operationId: "readDemo",
        tags: ["sign-in"],
        summary: "Whether this is a demonstration, and how to sign in to it",
        response: { 200: z.object({ demo: z.boolean(), crews: z.boolean(), signIns: z.array(demoSignIn) }) },
      },
    },
    async () => {
      const there = new Set(
        (await directory.people()).filter((p) => p.demo && p.active).map((p) => p.handle),
      );
      const signIns = demoSignIns.filter((s) => there.has(s.handle));
      const demo = signIns.length > 0;
      return { demo, crews: demo && crews, signIns };
    },
  );
};
