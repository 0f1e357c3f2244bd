import type { FastifyInstance } from "fastify";

/** Routes that change something of the house. */
const HOUSE =
  /^\/api\/(people|aircraft|equipment|currencies|house|types|begun-types|devices|service-accounts)(\/|$)/;

/** Calls `changed` after each request that changed something of the house, before its reply is sent. */
export function tellOfHouse(app: Pick<FastifyInstance, "addHook">, changed: () => void): void {
  app.addHook("onSend", async (request, reply) => {
    const { url } = request.routeOptions;
    if (request.method !== "GET" && reply.statusCode < 300 && HOUSE.test(url ?? "")) changed();
  });
}
