import type { FastifyInstance, FastifyRequest } from "fastify";
import type { Identity } from "../auth/identity.ts";
import type { Proof, Proofs } from "../auth/proofs.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import type { Door } from "../door.ts";
import { ProblemError } from "./problem.ts";

declare module "fastify" {
  interface FastifyInstance {
    door: Door;
  }
  interface FastifyRequest {
    identity: Identity | null;
  }
}

const TOKEN = /^(?:Bearer|DPoP) ([A-Za-z0-9_-]{20,200})$/;

/**
 * Requires a sign-in for every route registered on `app` after this call: `Authorization: Bearer <token>`, or from an
 * enrolled device `Authorization: DPoP <token>` with a proof in `DPoP` (RFC 9449).
 * @param within throws when this sign-in exceeded its limit
 */
export function requireSignIn(
  app: FastifyInstance,
  signIns: SignIns,
  proofs: Proofs,
  within: (request: FastifyRequest) => Promise<void>,
): void {
  app.addHook("onRoute", (route) => {
    route.config = { ...route.config, signedIn: true };
  });
  app.addHook("onRequest", async (request) => {
    const token = TOKEN.exec(request.headers.authorization ?? "")?.[1];
    const identity = token === undefined ? null : await signIns.who(token);
    if (!identity || token === undefined)
      throw new ProblemError("signInNeeded", "Sign in first: no valid sign-in came with the request");
    if (identity.thumbprint !== null) {
      const proof = await proofOf(request, proofs, token);
      if (proof?.is !== "proven" || proof.thumbprint !== identity.thumbprint) throw unproven();
    }
    request.identity = identity;
    request.server.door.signedIn(request.socket);
    await within(request);
    signIns.used(identity);
  });
}

/** Returns the request's DPoP proof, checked; null when it has none. */
export async function proofOf(
  request: FastifyRequest,
  proofs: Proofs,
  token: string | null,
): Promise<Proof | null> {
  const { dpop, host } = request.headers;
  if (typeof dpop !== "string") return null;
  const path = request.url.split("?")[0] ?? "";
  return proofs.read(dpop, { method: request.method, path, host, token });
}

export function unproven(): ProblemError {
  return new ProblemError(
    "proofNeeded",
    "Send a DPoP proof by this device's key for this very request, with the nonce of this answer's DPoP-Nonce",
  );
}

/** Returns the identity on a route behind `requireSignIn`. */
export function identityOf(request: FastifyRequest): Identity {
  if (!request.identity) throw new Error(`${request.routeOptions.url} is not behind a sign-in`);
  return request.identity;
}
