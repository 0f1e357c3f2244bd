import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { type ServiceAccount, serviceAccountSchema } from "../../shared/house/serviceAccount.ts";
import { auditTo } from "../audit.ts";
import type { ServiceAccounts } from "../auth/service-accounts.ts";
import { named } from "./named.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["service accounts"];

const { id, name, scopes, until, revoked } = serviceAccountSchema.shape;
const shown = named("ServiceAccount", z.object({ id, name, scopes, until, revoked }));

/** Routes by which supervisors manage the accounts of other systems. */
export const serviceAccountRoutes: FastifyPluginAsyncZod<{ accounts: ServiceAccounts }> = async (
  app,
  { accounts },
) => {
  app.get(
    "/service-accounts",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listServiceAccounts",
        tags,
        summary: "Every service account that was ever made, by id; never its secret",
        querystring: pageSchema,
        response: { 200: z.array(shown) },
      },
    },
    async (request, reply) => {
      const all = await accounts.all(identityOf(request).person);
      return pageOf(reply, request.query, all, { of: byId }).map(withoutSecret);
    },
  );

  app.post(
    "/service-accounts",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "addServiceAccount",
        tags,
        summary: "Make a service account: its token is in this answer and is never shown again",
        body: z.strictObject({ name, scopes, until }),
        response: { 201: z.object({ id: z.string(), token: z.string() }) },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const made = await accounts.add(person, request.body);
      auditTo(request.log).done("accountMade", { person: person.id, account: made.id });
      return reply.code(201).send(made);
    },
  );

  app.post(
    "/service-accounts/:id/revocation",
    {
      config: { problems: ["notFound", "notQualified", "stale"] },
      schema: {
        operationId: "revokeServiceAccount",
        tags,
        summary: "End a service account for good: it is refused from now on, and what it reads is cut off",
        params: z.strictObject({ id }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      await accounts.revoke(person, request.params.id);
      auditTo(request.log).done("accountRevoked", { person: person.id, account: request.params.id });
      return reply.code(204).send(null);
    },
  );
};

function withoutSecret({ secretHash: _, ...account }: ServiceAccount): Omit<ServiceAccount, "secretHash"> {
  return account;
}
