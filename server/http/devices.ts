import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import type { Devices } from "../auth/devices.ts";
import type { Identity } from "../auth/identity.ts";
import { everybody, setActive } from "../auth/people.ts";
import type { Proofs } from "../auth/proofs.ts";
import { qualified } from "../auth/refused.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import { nameById } from "../house/names.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { Directory } from "../store/directory.ts";
import { ProblemError } from "./problem.ts";
import { pinSchema, rightPin } from "./sign-in.ts";
import { identityOf, proofOf, unproven } from "./signed-in.ts";
import { deviceView, personView } from "./views.ts";

const tags = ["devices"];

/** Routes by which a device enrols itself before anybody has signed in on it. */
export const enrolRoutes: FastifyPluginAsyncZod<{
  devices: Devices;
  proofs: Proofs;
  perMinute: number;
}> = async (app, { devices, proofs, perMinute }) => {
  app.get(
    "/nonce",
    {
      // Exempt from rate limits: an enrolled device needs a nonce to open a socket, and stops go by socket.
      config: { unlimited: true },
      schema: {
        tags,
        summary: "A nonce for the first DPoP proof (RFC 9449); later ones come with the answers",
        response: { 200: z.object({ nonce: z.string() }) },
      },
    },
    async () => ({ nonce: proofs.nonce() }),
  );

  app.post(
    "/devices",
    {
      config: { rateLimit: { max: perMinute, timeWindow: 60_000 } },
      schema: {
        tags,
        summary: "Enrol the key that signed this request's DPoP proof, by a one-time code",
        body: z.strictObject({ code: z.string().min(1).max(100) }),
        response: { 201: deviceView },
      },
    },
    async (request, reply) => {
      const proof = await proofOf(request, proofs, null);
      if (proof?.is !== "proven") throw unproven();
      const device = await devices.enrol(request.body.code, proof);
      auditTo(request.log).done("enrolled", { device: device.id, address: request.ip });
      return reply.code(201).send(device);
    },
  );
};

const enrolledView = z.object({
  id: z.string(),
  name: z.string(),
  enrolledBy: z.string(),
  enrolledAt: z.number(),
  revokedBy: z.string().nullable(),
  revokedAt: z.number().nullable(),
});

/** Fields of a request that may cut off a person on duty. */
const cutting = { confirm: z.boolean().optional(), pin: pinSchema.optional() };
type Cutting = z.infer<z.ZodObject<typeof cutting>>;

export interface DeviceRoutesOptions {
  devices: Devices;
  directory: Directory;
  signIns: SignIns;
  sessions: Sessions;
}

/** Routes by which supervisors manage devices and people. A sign-in is required. */
export const deviceRoutes: FastifyPluginAsyncZod<DeviceRoutesOptions> = async (
  app,
  { devices, directory, signIns, sessions },
) => {
  const params = z.strictObject({ id: idSchema });

  /**
   * Lets a person cut off another who holds a post only on purpose: a start may hang on them.
   * @throws ProblemError unless nobody is cut off from a post, or `confirm` and the right PIN were sent
   */
  async function onPurpose(
    identity: Identity,
    { confirm, pin }: Cutting,
    is: Parameters<Sessions["postsHeld"]>[0],
  ): Promise<void> {
    const [held] = await sessions.postsHeld(is);
    if (!held) return;
    if (confirm !== true || pin === undefined) {
      const detail = `This cuts off ${held.post} of ${held.aircraft}: send confirm and your PIN to do it all the same`;
      throw new ProblemError("onDuty", detail);
    }
    const detail = `That is not ${identity.person.name}'s PIN: nobody was cut off`;
    rightPin(await signIns.confirm(identity, pin), detail);
  }

  app.get(
    "/devices",
    {
      schema: {
        tags,
        summary: "Every device that was ever enrolled, the newest first; by whom it was enrolled and revoked",
        response: { 200: z.array(enrolledView) },
      },
    },
    async (request) => {
      const all = await devices.all(identityOf(request).person);
      const named = await nameById(directory);
      return all.map((d) => ({
        ...d,
        enrolledBy: named(d.enrolledBy),
        revokedBy: d.revokedBy === null ? null : named(d.revokedBy),
      }));
    },
  );

  app.post(
    "/devices/codes",
    {
      schema: {
        tags,
        summary: "A code that enrols one device in the next five minutes",
        body: z.strictObject({ name: line(60) }),
        response: { 201: z.object({ code: z.string(), expiresAt: z.number() }) },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const given = await devices.code(person, request.body.name);
      auditTo(request.log).done("codeGiven", { person: person.id });
      return reply.code(201).send(given);
    },
  );

  app.post(
    "/devices/:id/revocation",
    {
      schema: {
        tags,
        summary: "Revoke a device: nobody signs in on it any more, and whoever did is cut off at once",
        params,
        body: z.strictObject(cutting).nullish(),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      const { person } = identity;
      qualified(person);
      const { id } = request.params;
      await onPurpose(identity, request.body ?? {}, ({ device }) => device === id);
      await devices.revoke(person, request.params.id);
      auditTo(request.log).done("revoked", { person: person.id, device: request.params.id });
      return reply.code(204).send(null);
    },
  );

  app.get(
    "/people/everybody",
    {
      schema: {
        tags: ["directory"],
        summary: "Everybody there is, whether or not they may sign in; for those qualified as supervisor",
        response: { 200: z.array(personView.extend({ active: z.boolean() })) },
      },
    },
    async (request) => everybody(directory, identityOf(request).person),
  );

  app.put(
    "/people/:id/active",
    {
      schema: {
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
      if (!active) await onPurpose(identity, sure, ({ id }) => id === request.params.id);
      await setActive({ directory, signIns }, by, request.params.id, active);
      const path = `people/${request.params.id}`;
      auditTo(request.log).done(active ? "madeActive" : "madeInactive", { person: by.id, path });
      return reply.code(204).send(null);
    },
  );
};
