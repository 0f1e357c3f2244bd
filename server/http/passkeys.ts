import type { FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { auditTo } from "../audit.ts";
import type { Passkeys } from "../auth/passkeys.ts";
import { isHost, type Proofs } from "../auth/proofs.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import type { Directory } from "../store/directory.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { ProblemError } from "./problem.ts";
import { answerTo, pinSchema, rightPin, signedInView } from "./sign-in.ts";
import { identityOf, proofOf, unproven } from "./signed-in.ts";

const text = z.string().max(10_000);
const options = z.record(z.string(), z.unknown()).describe("Options as Web Authentication has them in JSON");
const credential = {
  id: z.string().min(1).max(1_500),
  rawId: z.string().max(1_500),
  type: z.literal("public-key"),
  clientExtensionResults: z.record(z.string(), z.unknown()).transform(() => ({})),
};
/** Browsers add fields of their own. Fields not named here are dropped. */
const assertion = z.object({
  ...credential,
  response: z.object({
    clientDataJSON: text,
    authenticatorData: text,
    signature: text,
    userHandle: z.string().max(200).nullish(),
  }),
});
const attestation = z.object({
  ...credential,
  response: z.object({ clientDataJSON: text, attestationObject: text }),
});

const tags = ["sign-in"];

/**
 * Returns the allowed origin that the request came by. A passkey works for one host name only.
 * @throws ProblemError when the host is not among the configured origins
 */
function originOf({ headers }: FastifyRequest, origins: readonly string[]): string {
  const origin = origins.find((o) => isHost(new URL(o), headers.host));
  if (origin === undefined)
    throw new ProblemError(
      "noPasskeys",
      "There are none under the name you came by: sign in by PIN, and have it named in CHOCKSIDE_ORIGINS",
    );
  return origin;
}

interface PasskeySignIn {
  passkeys: Passkeys;
  signIns: SignIns;
  proofs: Proofs;
  origins: readonly string[];
  /** Attempts per address and minute. */
  perMinute: number;
}

/** Routes to sign in by passkey. They need an enrolled device. */
export const passkeySignInRoutes: FastifyPluginAsyncZod<PasskeySignIn> = async (
  app,
  { passkeys, signIns, proofs, origins, perMinute },
) => {
  const config = { rateLimit: { max: perMinute, timeWindow: 60_000 } };

  app.post(
    "/sign-in/passkey/options",
    {
      config: { ...config, problems: ["noPasskeys"] },
      schema: {
        operationId: "passkeySignInOptions",
        tags,
        summary: "What to ask the device for a passkey by",
        response: { 200: options },
      },
    },
    async (request) => ({ ...(await passkeys.signInOptions(originOf(request, origins))) }),
  );

  app.post(
    "/sign-in/passkey",
    {
      config: { ...config, problems: ["proofNeeded", "wrongPasskey"] },
      schema: {
        operationId: "signInByPasskey",
        tags,
        summary: "Sign in by passkey, from an enrolled device with a DPoP proof",
        body: assertion,
        response: { 200: signedInView },
      },
    },
    async (request) => {
      const origin = originOf(request, origins);
      const proof = await proofOf(request, proofs, null);
      if (proof?.is !== "proven") throw unproven();
      const { response, ...rest } = request.body;
      const userHandle = response.userHandle ?? undefined;
      const { userHandle: _given, ...shown } = response;
      const person = await passkeys.who(origin, {
        ...rest,
        response: userHandle === undefined ? shown : { ...shown, userHandle },
      });
      const result = person ? await signIns.signInAs(person, proof) : ({ is: "wrong" } as const);
      if (result.is === "wrong")
        throw new ProblemError("wrongPasskey", "Nobody with that passkey may sign in here");
      return answerTo(request, result);
    },
  );
};

interface OwnPasskeys {
  passkeys: Passkeys;
  directory: Directory;
  signIns: SignIns;
  origins: readonly string[];
}

/** Routes for a person's own passkeys. A sign-in is required. */
export const ownPasskeyRoutes: FastifyPluginAsyncZod<OwnPasskeys> = async (
  app,
  { passkeys, directory, signIns, origins },
) => {
  app.get(
    "/me/passkeys",
    {
      schema: {
        operationId: "listMyPasskeys",
        tags,
        summary: "One's own passkeys, the oldest first",
        querystring: pageSchema,
        response: {
          200: z.array(
            z.object({
              id: z.string(),
              deviceName: z.string(),
              createdAt: z.number(),
              usedAt: z.number().nullable(),
            }),
          ),
        },
      },
    },
    async (request, reply) => {
      const own = await directory.passkeys.of(identityOf(request).person.id);
      return pageOf(reply, request.query, own, { of: (p) => [p.createdAt, p.id] });
    },
  );

  app.post(
    "/me/passkeys/options",
    {
      config: { problems: ["deviceNeeded", "locked", "noPasskeys", "wrongPin"] },
      schema: {
        operationId: "newPasskeyOptions",
        tags,
        summary: "What to make a passkey by, with one's PIN again, on an enrolled device",
        body: z.strictObject({ pin: pinSchema }),
        response: { 200: options },
      },
    },
    async (request) => {
      const origin = originOf(request, origins);
      const identity = identityOf(request);
      if (identity.thumbprint === null)
        throw new ProblemError("deviceNeeded", "Passkeys are for enrolled devices: enrol this one first");
      const detail = `That is not ${identity.person.name}'s PIN: no passkey was made`;
      rightPin(await signIns.confirm(identity, request.body.pin), detail);
      return { ...(await passkeys.addOptions(identity, origin)) };
    },
  );

  app.post(
    "/me/passkeys",
    {
      config: { problems: ["wrongPasskey"] },
      schema: {
        operationId: "addMyPasskey",
        tags,
        summary: "Keep the passkey that was made",
        body: attestation,
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const identity = identityOf(request);
      if (!(await passkeys.add(identity, originOf(request, origins), request.body)))
        throw new ProblemError("wrongPasskey", "That is not the passkey that was asked for: ask again");
      auditTo(request.log).done("passkeyAdded", { person: identity.person.id, device: identity.device.id });
      return reply.code(204).send(null);
    },
  );

  app.delete(
    "/me/passkeys/:id",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "removeMyPasskey",
        tags,
        summary: "Forget one of one's own passkeys: nobody signs in by it any more",
        params: z.strictObject({ id: z.string().max(1_500) }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const { person, device } = identityOf(request);
      if (!(await directory.passkeys.remove(request.params.id, person.id)))
        throw new ProblemError("notFound", "You have no such passkey");
      auditTo(request.log).done("passkeyRemoved", { person: person.id, device: device.id });
      return reply.code(204).send(null);
    },
  );
};
