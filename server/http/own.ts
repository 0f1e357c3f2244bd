import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import { newPinSchema } from "../auth/new-pin.ts";
import { named } from "./named.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { ProblemError } from "./problem.ts";
import { pinSchema, rightPin } from "./sign-in.ts";
import { type Admission, identityOf, requireSignIn } from "./signed-in.ts";
import { deviceView, personView } from "./views.ts";

/** Leaves out "storage", which would delete the device's key and the panels' offline copy. */
const CLEARED = '"cache"';

const signInView = named(
  "SignIn",
  z.object({
    id: z.string(),
    deviceName: z.string(),
    createdAt: z.number(),
    usedAt: z.number(),
    /** True for the sign-in that made this request. */
    here: z.boolean(),
  }),
);

/** Routes by which a signed-in person manages their own account. */
export const ownRoutes: FastifyPluginAsyncZod<Admission> = async (app, admitting) => {
  const { signIns } = admitting;
  requireSignIn(app, admitting);

  app.post(
    "/sign-out",
    {
      schema: {
        operationId: "signOut",
        tags: ["sign-in"],
        summary: "End this sign-in at once",
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      await signIns.signOut(identity);
      auditTo(request.log).done("signedOut", { person: identity.person.id, device: identity.device.id });
      return reply.header("clear-site-data", CLEARED).code(204).send(null);
    },
  );

  app.post(
    "/confirm",
    {
      config: { problems: ["locked", "wrongPin"] },
      schema: {
        operationId: "confirmByPin",
        tags: ["sign-in"],
        summary:
          "Enter one's PIN again for one command that asks for it; gives what to send with the command",
        body: z.strictObject({ pin: pinSchema, session: idSchema, command: z.uuid() }),
        response: { 200: z.object({ permit: z.string(), expiresAt: z.number() }) },
      },
    },
    async (request) => {
      const { pin, ...what } = request.body;
      const identity = identityOf(request);
      const detail = `That is not ${identity.person.name}'s PIN: nothing was set aside`;
      rightPin(await signIns.confirm(identity, pin), detail);
      auditTo(request.log).done("confirmed", { person: identity.person.id, device: identity.device.id });
      return signIns.permit(identity, what);
    },
  );

  app.get(
    "/me",
    {
      schema: {
        operationId: "readMe",
        tags: ["sign-in"],
        summary: "Who is signed in here",
        response: {
          200: z.object({
            person: personView,
            device: deviceView,
            pinLength: z.number().describe("Characters a new PIN has at least"),
          }),
        },
      },
    },
    async (request) => {
      const { person, device } = identityOf(request);
      return { person, device, pinLength: signIns.pinLength };
    },
  );

  app.post(
    "/me/pin",
    {
      config: { problems: ["locked", "wrongPin"] },
      schema: {
        operationId: "changeMyPin",
        tags: ["sign-in"],
        summary: "Choose another PIN, by the old one; ends one's sign-ins elsewhere",
        body: z
          .strictObject({ pin: pinSchema, next: newPinSchema(signIns.pinLength) })
          .refine(({ pin, next }) => pin !== next, { path: ["next"], message: "must be another one" }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const { pin, next } = request.body;
      const identity = identityOf(request);
      const detail = `That is not ${identity.person.name}'s PIN: it was not changed`;
      rightPin(await signIns.changePin(identity, pin, next), detail);
      auditTo(request.log).done("pinChanged", { person: identity.person.id, device: identity.device.id });
      return reply.code(204).send(null);
    },
  );

  app.get(
    "/me/sign-ins",
    {
      schema: {
        operationId: "listMySignIns",
        tags: ["sign-in"],
        summary: "One's own sign-ins that stand, the newest first",
        querystring: pageSchema,
        response: { 200: z.array(signInView) },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      const own = await signIns.own(identity);
      const page = pageOf(reply, request.query, own, { of: (s) => [s.createdAt, s.id], newestFirst: true });
      return page.map((s) => ({ ...s, here: s.id === identity.signIn }));
    },
  );

  app.delete(
    "/me/sign-ins/:id",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "endMySignIn",
        tags: ["sign-in"],
        summary: "End one of one's own sign-ins at once, wherever it is in use",
        params: z.strictObject({ id: idSchema }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      const { id } = request.params;
      if (!(await signIns.endOwn(identity, id)))
        throw new ProblemError("notFound", "You have no such sign-in");
      const path = `sign-ins/${id}`;
      auditTo(request.log).done("signInEnded", { person: identity.person.id, path });
      return reply.code(204).send(null);
    },
  );
};
