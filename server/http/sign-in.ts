import type { FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import type { Proofs } from "../auth/proofs.ts";
import type { SignedIn, SignInPlace, SignIns } from "../auth/sign-ins.ts";
import { networkOf } from "../peer.ts";
import { named } from "./named.ts";
import { ProblemError } from "./problem.ts";
import { proofOf, unproven } from "./signed-in.ts";
import { personView } from "./views.ts";

export interface SignInOptions {
  signIns: SignIns;
  proofs: Proofs;
  /** Sign-in attempts per address and minute. */
  perMinute: number;
}

export const pinSchema = z
  .string()
  .min(4, "must be at least 4 characters")
  .max(64, "must be at most 64 characters");

/** The problem for a locked PIN, with the milliseconds left. */
function lockedFor(waitMs: number): ProblemError {
  const detail = `Too many wrong attempts: try again in ${Math.ceil(waitMs / 1000)} s`;
  return new ProblemError("locked", detail, { retryAfterMs: waitMs });
}

/**
 * @param detail says whose PIN was wrong and what was therefore not done
 * @throws ProblemError unless the PIN is right
 */
export function rightPin(entered: Awaited<ReturnType<SignIns["confirm"]>>, detail: string): void {
  if (entered.is === "locked") throw lockedFor(entered.waitMs);
  if (entered.is === "wrong") throw new ProblemError("wrongPin", detail);
}

export const signedInView = named(
  "SignedIn",
  z.object({
    token: z.string(),
    expiresAt: z.number(),
    person: personView,
    device: z
      .object({ id: z.string(), name: z.string() })
      .describe("The device as the server knows it: an enrolled one by its key, whatever it calls itself"),
  }),
);

/** Logs a sign-in and returns what the panel needs from it. */
export function answerTo(request: FastifyRequest, { token, identity }: SignedIn) {
  const { person, device, expiresAt } = identity;
  auditTo(request.log).done("signedIn", { person: person.id, device: device.id, address: request.ip });
  return { token, expiresAt, person, device };
}

const bodySchema = z.strictObject({
  handle: z.string().trim().toLowerCase().pipe(idSchema),
  pin: pinSchema,
  /** The name that a device without enrolment gives itself. An enrolled device is identified by its proof. */
  device: z.strictObject({ id: idSchema, name: line(60) }).optional(),
});

export const signInRoute: FastifyPluginAsyncZod<SignInOptions> = async (
  app,
  { signIns, proofs, perMinute },
) => {
  app.post(
    "/sign-in",
    {
      config: {
        rateLimit: { max: perMinute, timeWindow: 60_000 },
        problems: ["deviceInUse", "deviceNeeded", "locked", "wrongSignIn"],
      },
      schema: {
        operationId: "signIn",
        tags: ["sign-in"],
        summary: "Sign in by handle and PIN, from an enrolled device with a DPoP proof",
        body: bodySchema,
        response: { 200: signedInView },
      },
    },
    async (request) => {
      const { handle, pin, device } = request.body;
      const proof = await proofOf(request, proofs, null);
      if (proof?.is === "refused") throw unproven();
      const place: SignInPlace | undefined = proof ?? device;
      if (!place) throw new ProblemError("malformed", "body.device: is needed where no key proves itself");
      const result = await signIns.signIn(handle, pin, place, networkOf(request.ip));
      switch (result.is) {
        case "deviceNeeded":
          throw new ProblemError(
            "deviceNeeded",
            "This device is not enrolled for you: ask a supervisor for a code, then enrol it",
          );
        case "deviceInUse":
          throw new ProblemError(
            "deviceInUse",
            "Somebody else is signed in on this device: let them sign out first",
          );
        case "locked":
          throw lockedFor(result.waitMs);
        case "wrong":
          throw new ProblemError("wrongSignIn", "No person with that handle and PIN may sign in here");
        case "signedIn":
          return answerTo(request, result);
      }
    },
  );
};
