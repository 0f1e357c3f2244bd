import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { noiseFigures } from "../../shared/figures/noise.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { personOf } from "../auth/identity.ts";
import type { Clock } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import { NoSuchSession } from "../sessions/errors.ts";
import { NoiseLogs } from "../sessions/noise.ts";
import type { EventStore } from "../store/events.ts";
import { identityOf } from "./signed-in.ts";

export interface NoiseRouteOptions {
  store: EventStore;
  names: Pseudonyms;
  clock: Clock;
}

export const noiseRoute: FastifyPluginAsyncZod<NoiseRouteOptions> = async (app, { store, names, clock }) => {
  const logs = new NoiseLogs(store, names);

  app.get(
    "/sessions/:id/noise",
    {
      config: { costly: true, problems: ["notFound"] },
      schema: {
        operationId: "readNoise",
        tags: ["sessions"],
        summary:
          "Noise dose over the last 24 hours: to the session's supervisor of everybody at its posts, to anybody else their own",
        params: z.strictObject({ id: idSchema }),
        response: {
          200: z.object({
            at: z.number(),
            figures: z.array(z.record(z.string(), z.unknown())).describe("Figure"),
          }),
        },
      },
    },
    async (request) => {
      const { id } = request.params;
      if (!(await store.session(id))) throw new NoSuchSession(`there is no session ${id}`);
      const at = clock.now();
      const heard = await logs.upTo(at, id);
      const own = heard.get(id) ?? null;
      const others = [...heard].filter(([session]) => session !== id).map(([, log]) => log);
      const person = personOf(identityOf(request));
      const sees = own !== null && postHeld(own.state, person) === "supervisor";
      const figures = noiseFigures(own, others, at).filter((f) => sees || f.id === `noise:${person.id}`);
      return { at, figures: figures.map((f) => ({ ...f })) };
    },
  );
};
