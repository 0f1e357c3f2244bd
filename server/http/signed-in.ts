import type { FastifyInstance, FastifyRequest } from "fastify";
import type { ScopeKind } from "../../shared/house/serviceAccount.ts";
import type { AccountUses } from "../auth/account-uses.ts";
import type { Identity } from "../auth/identity.ts";
import type { Proof, Proofs } from "../auth/proofs.ts";
import { type Account, isServiceToken, type ServiceAccounts, scopeOf } from "../auth/service-accounts.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import type { Door } from "../door.ts";
import { ProblemError } from "./problem.ts";

declare module "fastify" {
  interface FastifyInstance {
    door: Door;
  }
  interface FastifyRequest {
    identity: Identity | null;
    /** The service account of the request; null for a person. */
    account: Account | null;
  }
  interface FastifyContextConfig {
    /** The scopes with which a service account may use this route. Without any, it is for people alone. */
    scopes?: readonly ScopeKind[];
    /** For service accounts alone. */
    systemsOnly?: boolean;
  }
}

const TOKEN = /^(?:Bearer|DPoP) ([A-Za-z0-9_-]{20,200})$/;

/** Parts by which a request is admitted. */
export interface Admission {
  signIns: SignIns;
  proofs: Proofs;
  accounts: ServiceAccounts;
  uses: AccountUses;
  /** @throws ProblemError when this sign-in exceeded its limit */
  within(request: FastifyRequest): Promise<void>;
}

/**
 * Requires a sign-in for every route registered on `app` after this call: `Authorization: Bearer <token>`, or from an
 * enrolled device `Authorization: DPoP <token>` with a proof in `DPoP` (RFC 9449). A service account sends its token as
 * a bearer, and is admitted to the routes of its scopes alone.
 */
export function requireSignIn(app: FastifyInstance, admission: Admission): void {
  const { signIns, proofs, within } = admission;
  app.addHook("onRoute", (route) => {
    route.config = { ...route.config, signedIn: true };
  });
  app.addHook("onRequest", async (request) => {
    const token = TOKEN.exec(request.headers.authorization ?? "")?.[1];
    if (token !== undefined && isServiceToken(token)) return admitSystem(request, token, admission);
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
    if (request.routeOptions.config.systemsOnly === true)
      throw new ProblemError("outOfScope", "This is for service accounts, not for people");
  });
}

async function admitSystem(
  request: FastifyRequest,
  token: string,
  { accounts, uses, within }: Admission,
): Promise<void> {
  const known = await accounts.who(token, request.ip);
  if (known.is === "tooMany")
    throw new ProblemError("tooMany", "Too many tokens are being checked: wait a moment", {
      retryAfterMs: 2_000,
    });
  if (known.is === "unknown")
    throw new ProblemError("signInNeeded", "No service account has this token, or it has ended");
  const { account } = known;
  request.account = account;
  request.server.door.signedIn(request.socket);
  await within(request);
  const { config, url } = request.routeOptions;
  uses.used(account.id, { address: request.ip, path: url });
  if (!config.scopes?.some((kind) => scopeOf(account, kind)))
    throw new ProblemError("outOfScope", `The account ${account.name} has no scope for this`);
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

/** Returns the service account on a route for them alone. */
export function accountOf(request: FastifyRequest): Account {
  if (!request.account) throw new Error(`${request.routeOptions.url} is not for service accounts alone`);
  return request.account;
}

/** Returns the id of the person or the service account that asks. */
export function askerOf(request: FastifyRequest): string {
  return request.account?.id ?? identityOf(request).person.id;
}
