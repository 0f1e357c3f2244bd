import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import {
  addPerson,
  mayHoldSchema,
  type NewPeopleDeps,
  nameSchema,
  newPersonSchema,
} from "../auth/new-person.ts";
import { newPinSchema } from "../auth/new-pin.ts";
import { changePerson, everybody, losesPosts, setActive } from "../auth/people.ts";
import { hashPin } from "../auth/pin.ts";
import { OfficeRefused, qualified } from "../auth/refused.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import { cutting, type OnPurposeDeps, onPurpose } from "./on-purpose.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { pinSchema, rightPin } from "./sign-in.ts";
import { identityOf } from "./signed-in.ts";
import { personView } from "./views.ts";

export interface PeopleRoutes extends OnPurposeDeps, NewPeopleDeps {
  signIns: SignIns;
}

/** Routes by which supervisors manage people. A sign-in is required. */
export const peopleRoutes: FastifyPluginAsyncZod<PeopleRoutes> = async (app, deps) => {
  const { directory, signIns } = deps;
  const params = z.strictObject({ id: idSchema });

  app.post(
    "/people",
    {
      config: { problems: ["notQualified", "taken"] },
      schema: {
        operationId: "addPerson",
        tags: ["directory"],
        summary: "Add a person who may sign in, with a first PIN that they then change themselves",
        body: newPersonSchema(signIns.pinLength),
        response: { 201: personView },
      },
    },
    async (request, reply) => {
      const { person: by } = identityOf(request);
      qualified(by);
      const person = await addPerson(deps, request.body);
      auditTo(request.log).done("personAdded", { person: by.id, path: `people/${person.id}` });
      return reply.code(201).send(person);
    },
  );

  app.put(
    "/people/:id",
    {
      config: { problems: ["locked", "notFound", "notQualified", "onDuty", "ownWork", "taken", "wrongPin"] },
      schema: {
        operationId: "changePerson",
        tags: ["directory"],
        summary:
          "Change a person's name and posts; one who loses a post signs in again, and nobody changes their own",
        params,
        body: z.strictObject({ name: nameSchema, mayHold: mayHoldSchema, ...cutting }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      const { id } = request.params;
      const { confirm, pin, ...to } = request.body;
      qualified(identity.person);
      if (await losesPosts(directory, id, to.mayHold))
        await onPurpose(deps, identity, { confirm, pin }, (held) => held.id === id);
      await changePerson({ directory, signIns }, identity.person, id, to);
      auditTo(request.log).done("personChanged", { person: identity.person.id, path: `people/${id}` });
      return reply.code(204).send(null);
    },
  );

  app.put(
    "/people/:id/pin",
    {
      config: { problems: ["locked", "notFound", "notQualified", "onDuty", "ownWork", "wrongPin"] },
      schema: {
        operationId: "replacePin",
        tags: ["directory"],
        summary:
          "Replace somebody's forgotten PIN, with one's own; all their sign-ins end, and they then change it themselves",
        params,
        body: z.strictObject({
          next: newPinSchema(signIns.pinLength),
          pin: pinSchema,
          confirm: z.boolean().optional(),
        }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      const { id } = request.params;
      const { next, ...sure } = request.body;
      qualified(identity.person);
      if (id === identity.person.id)
        throw new OfficeRefused("ownWork", "Change your own PIN with the old one");
      if (!(await directory.person(id))) throw new OfficeRefused("notFound", "There is no such person");
      const detail = `That is not ${identity.person.name}'s PIN: nothing was changed`;
      rightPin(await signIns.confirm(identity, sure.pin), detail);
      await onPurpose(deps, identity, sure, (held) => held.id === id);
      await directory.setPin(id, await hashPin(next, deps.pinCost));
      await signIns.endAll({ personId: id });
      auditTo(request.log).done("pinReplaced", { person: identity.person.id, path: `people/${id}` });
      return reply.code(204).send(null);
    },
  );

  app.get(
    "/people/everybody",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listEverybody",
        tags: ["directory"],
        summary:
          "Everybody there is, by id, whether or not they may sign in; for those qualified as supervisor",
        querystring: pageSchema,
        response: {
          200: z.array(personView.extend({ active: z.boolean() })),
        },
      },
    },
    async (request, reply) => {
      const all = await everybody(directory, identityOf(request).person);
      return pageOf(reply, request.query, all, { of: byId });
    },
  );

  app.put(
    "/people/:id/active",
    {
      config: { problems: ["locked", "notFound", "notQualified", "onDuty", "ownWork", "wrongPin"] },
      schema: {
        operationId: "setPersonActive",
        tags: ["directory"],
        summary: "Whether a person may sign in; one who may not is cut off at once",
        params,
        body: z.strictObject({ active: z.boolean(), ...cutting }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      const by = identity.person;
      const { active, ...sure } = request.body;
      qualified(by);
      if (!active) await onPurpose(deps, identity, sure, ({ id }) => id === request.params.id);
      await setActive({ directory, signIns }, by, request.params.id, active);
      const path = `people/${request.params.id}`;
      auditTo(request.log).done(active ? "madeActive" : "madeInactive", { person: by.id, path });
      return reply.code(204).send(null);
    },
  );
};
