import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import type { Devices } from "../auth/devices.ts";
import type { Proofs } from "../auth/proofs.ts";
import { qualified } from "../auth/refused.ts";
import { nameById } from "../house/names.ts";
import type { Directory } from "../store/directory.ts";
import { named } from "./named.ts";
import { cutting, type OnPurposeDeps, onPurpose } from "./on-purpose.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { identityOf, proofOf, unproven } from "./signed-in.ts";
import { deviceView } from "./views.ts";

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
        operationId: "proofNonce",
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
      config: { rateLimit: { max: perMinute, timeWindow: 60_000 }, problems: ["codeWrong", "proofNeeded"] },
      schema: {
        operationId: "enrolDevice",
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

const enrolledView = named(
  "EnrolledDevice",
  z.object({
    id: z.string(),
    name: z.string(),
    enrolledBy: z.string(),
    enrolledAt: z.number(),
    revokedBy: z.string().nullable(),
    revokedAt: z.number().nullable(),
  }),
);

export interface DeviceRoutesOptions extends OnPurposeDeps {
  devices: Devices;
  directory: Directory;
}

/** Routes by which supervisors manage devices. A sign-in is required. */
export const deviceRoutes: FastifyPluginAsyncZod<DeviceRoutesOptions> = async (app, deps) => {
  const { devices, directory } = deps;
  const params = z.strictObject({ id: idSchema });

  app.get(
    "/devices",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listDevices",
        tags,
        summary: "Every device that was ever enrolled, the newest first; by whom it was enrolled and revoked",
        querystring: pageSchema,
        response: { 200: z.array(enrolledView) },
      },
    },
    async (request, reply) => {
      const all = await devices.all(identityOf(request).person);
      const named = await nameById(directory);
      const page = pageOf(reply, request.query, all, { of: (d) => [d.enrolledAt, d.id], newestFirst: true });
      return page.map((d) => ({
        ...d,
        enrolledBy: named(d.enrolledBy),
        revokedBy: d.revokedBy === null ? null : named(d.revokedBy),
      }));
    },
  );

  app.post(
    "/devices/codes",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "giveEnrolmentCode",
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
      config: { problems: ["locked", "notFound", "notQualified", "onDuty", "wrongPin"] },
      schema: {
        operationId: "revokeDevice",
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
      await onPurpose(deps, identity, request.body ?? {}, ({ device }) => device === id);
      await devices.revoke(person, request.params.id);
      auditTo(request.log).done("revoked", { person: person.id, device: request.params.id });
      return reply.code(204).send(null);
    },
  );
};
