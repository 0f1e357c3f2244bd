import type { FastifyInstance, FastifyRequest } from "fastify";
import { ProblemError } from "./problem.ts";

declare module "fastify" {
  interface FastifyContextConfig {
    /** Never refused for its number: a stop may hang on it, or whoever watches over the server. */
    unlimited?: boolean;
    /** Reads, draws or proves a whole record: fewer of these are answered. */
    dear?: boolean;
  }
}

/** How many requests are answered in a minute. Far above what a crew's panels ask for; stops go by socket. */
export interface PerMinute {
  /** Attempts to sign in or to enrol, from one address. */
  signIns: number;
  /** Requests of any kind from one address: a proxy that is not known as one is one address for everybody behind it. */
  address: number;
  /** Requests under one sign-in, from wherever. */
  signIn: number;
  /** Of these, such as read, draw or prove a whole record. */
  dear: number;
}

const MINUTE_MS = 60_000;

/** @throws ProblemError when there were too many */
type Limit = (request: FastifyRequest) => Promise<void>;

/** Bounds what one address may ask. */
export function limitByAddress(app: FastifyInstance, max: number): void {
  const within = limit(app, max, (s) => {
    const detail = `Too many requests from this address: wait ${s} s`;
    return detail;
  });
  app.addHook("onRequest", async (request) => {
    if (request.routeOptions.config.unlimited !== true) await within(request);
  });
}

/** Bounds what one sign-in may ask; for requests whose sign-in is known. */
export function limitBySignIn(app: FastifyInstance, { signIn, dear }: PerMinute): Limit {
  const told = (s: number) => {
    const detail = `Too many requests under this sign-in: wait ${s} s`;
    return detail;
  };
  const keyOf = (request: FastifyRequest) => request.identity?.signIn ?? "";
  const [all, dearOnes] = [limit(app, signIn, told, keyOf), limit(app, dear, told, keyOf)];
  return async (request) => {
    await all(request);
    if (request.routeOptions.config.dear === true) await dearOnes(request);
  };
}

function limit(
  app: FastifyInstance,
  max: number,
  told: (waitS: number) => string,
  keyOf?: (request: FastifyRequest) => string,
): Limit {
  const key = keyOf ? { keyGenerator: keyOf } : {};
  const count = app.createRateLimit({ max, timeWindow: MINUTE_MS, ...key });
  return async (request) => {
    const counted = await count(request);
    if (counted.isAllowed || !counted.isExceeded) return;
    throw new ProblemError("tooMany", told(counted.ttlInSeconds), { retryAfterMs: counted.ttl });
  };
}
