import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { apartFromStarts, currencySchema, NOT_APART } from "../../shared/house/currency.ts";
import { daySchema } from "../../shared/protocol/equipment.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import { OfficeRefused, qualified } from "../auth/refused.ts";
import { asPlanner, type Currencies } from "../house/currencies.ts";
import type { Directory } from "../store/directory.ts";
import { named } from "./named.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { savedSchema } from "./register-states.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["currencies"];
const params = z.strictObject({ id: idSchema });
const lapse = named(
  "Lapse",
  z.object({
    post: z.enum(POSTS),
    kind: z.string(),
    name: z.string(),
    until: z.number().nullable(),
    is: z.enum(["over", "ending"]),
    bars: z.boolean(),
  }),
);
const dates = named(
  "LastDays",
  z.record(idSchema, daySchema).describe("The last day of each kind, by its id"),
);

/** Routes of what people must keep up. */
export const currencyRoutes: FastifyPluginAsyncZod<{ currencies: Currencies; directory: Directory }> = async (
  app,
  { currencies, directory },
) => {
  app.get(
    "/currencies",
    {
      schema: {
        operationId: "listCurrencies",
        tags,
        summary: "The kinds of currency that the house keeps, by id",
        querystring: pageSchema,
        response: { 200: z.array(currencySchema.extend({ revision: z.number().int() })) },
      },
    },
    async (request, reply) =>
      pageOf(reply, request.query, await currencies.kinds(), { of: byId }).map(({ body, revision }) => ({
        ...body,
        revision,
      })),
  );

  app.post(
    "/currencies",
    {
      config: { problems: ["notQualified", "taken"] },
      schema: {
        operationId: "addCurrency",
        tags,
        summary: "Add a kind of currency",
        body: currencySchema.refine(apartFromStarts, NOT_APART),
        response: { 201: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const entry = await currencies.add(person, request.body);
      auditTo(request.log).done("currencyAdded", { person: person.id, path: `currencies/${entry.id}` });
      return tagged(reply, entry).code(201).send(entry);
    },
  );

  app.put(
    "/currencies/:id",
    {
      config: { problems: ["notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeCurrency",
        tags,
        summary: "Change a kind of currency as it was read (If-Match)",
        params,
        headers: ifMatch,
        body: currencySchema.omit({ id: true }).refine(apartFromStarts, NOT_APART),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const { id } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const entry = await currencies.change(person, { ...request.body, id }, revision);
      auditTo(request.log).done("currencyChanged", { person: person.id, path: `currencies/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );

  app.get(
    "/people/lapses",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listLapses",
        tags,
        summary:
          "Who has let which currency lapse, or will within 30 days, by the person's id; for those who plan",
        querystring: pageSchema,
        response: { 200: z.array(z.object({ person: z.string(), lapses: z.array(lapse) })) },
      },
    },
    async (request, reply) => {
      asPlanner(identityOf(request).person);
      const all = await currencies.lapses();
      const page = pageOf(reply, request.query, all, { of: ({ person }) => byId(person) });
      return page.map(({ person, lapses }) => ({ person: person.id, lapses }));
    },
  );

  app.get(
    "/me/lapses",
    {
      schema: {
        operationId: "listMyLapses",
        tags,
        summary: "One's own currencies that lapsed, or will within 30 days, by post",
        querystring: pageSchema,
        response: { 200: z.array(lapse) },
      },
    },
    async (request, reply) => {
      const { id } = identityOf(request).person;
      const own = (await currencies.lapses()).find(({ person }) => person.id === id)?.lapses ?? [];
      return pageOf(reply, request.query, own, { of: ({ post, kind }) => [POSTS.indexOf(post), kind] });
    },
  );

  app.get(
    "/people/dates",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listCurrencyDates",
        tags,
        summary:
          "Everybody's end dates by person, in the order of their ids; for those qualified as supervisor",
        querystring: pageSchema,
        response: { 200: z.record(z.string(), dates) },
      },
    },
    async (request, reply) => {
      qualified(identityOf(request).person);
      const all = new Map<string, Record<string, string>>();
      for (const { personId, kind, until } of await directory.currencies.dates())
        all.set(personId, { ...all.get(personId), [kind]: until });
      return Object.fromEntries(pageOf(reply, request.query, [...all], { of: ([person]) => [0, person] }));
    },
  );

  app.put(
    "/people/:id/dates",
    {
      config: { problems: ["notFound", "notQualified", "ownWork"] },
      schema: {
        operationId: "setCurrencyDates",
        tags,
        summary: "Replace a person's end dates; nobody enters their own",
        params,
        body: dates,
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const { id } = request.params;
      qualified(person);
      if (id === person.id) throw new OfficeRefused("ownWork", "Another person must do this to you");
      if (!(await directory.person(id))) throw new OfficeRefused("notFound", "There is no such person");
      await currencies.setDates(id, request.body);
      auditTo(request.log).done("datesEntered", { person: person.id, path: `people/${id}/dates` });
      return reply.code(204).send(null);
    },
  );
};
