import type { FastifyInstance, FastifyRequest } from "fastify";
import type { Identity } from "../auth/identity.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import { ProblemError } from "./problem.ts";

declare module "fastify" {
  interface FastifyRequest {
    identity: Identity | null;
  }
}

const BEARER = /^Bearer ([A-Za-z0-9_-]{20,200})$/;

/** Every route registered on `app` from here on wants a sign-in: `Authorization: Bearer <token>`. */
export function requireSignIn(app: FastifyInstance, signIns: SignIns): void {
  app.addHook("onRequest", async (request) => {
    const token = BEARER.exec(request.headers.authorization ?? "")?.[1];
    const identity = token === undefined ? null : await signIns.who(token);
    if (!identity)
      throw new ProblemError("signInNeeded", "Sign in first: no valid sign-in came with the request");
    request.identity = identity;
  });
}

/** The identity on a route behind `requireSignIn`. */
export function identityOf(request: FastifyRequest): Identity {
  if (!request.identity) throw new Error(`${request.routeOptions.url} is not behind a sign-in`);
  return request.identity;
}
