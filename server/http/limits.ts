import type { FastifyInstance, FastifyRequest } from "fastify";
import { ProblemError } from "./problem.ts";

declare module "fastify" {
  interface FastifyContextConfig {
    /** Exempt from rate limits, because a stop or the server's monitoring depends on it. */
    unlimited?: boolean;
    /** Reads, draws or proves a whole record, so it has a lower limit. */
    costly?: boolean;
  }
}

/** Requests answered per minute: far more than a crew's panels send. Stops go by socket and are not counted. */
export interface PerMinute {
  /** Attempts to sign in or to enrol, per address. */
  signIns: number;
  /** Requests of any kind, per address. All people behind a proxy that is not configured share its address. */
  address: number;
  /** Requests per sign-in, from any address. */
  signIn: number;
  /** Requests per sign-in to routes marked `costly`. */
  costly: number;
}

const MINUTE_MS = 60_000;

/** @throws ProblemError when the limit is exceeded */
type Limit = (request: FastifyRequest) => Promise<void>;

/** Limits requests per address. */
export function limitByAddress(app: FastifyInstance, max: number): void {
  const within = limit(app, max, (s) => {
    const detail = `Too many requests from this address: wait ${s} s`;
    return detail;
  });
  app.addHook("onRequest", async (request) => {
    if (request.routeOptions.config.unlimited !== true) await within(request);
  });
}

/** Returns a limit per sign-in, for requests whose sign-in is known. */
export function limitBySignIn(app: FastifyInstance, { signIn, costly }: PerMinute): Limit {
  const told = (s: number) => {
    const detail = `Too many requests under this sign-in: wait ${s} s`;
    return detail;
  };
  const keyOf = (request: FastifyRequest) => request.identity?.signIn ?? request.account?.id ?? "";
  const [all, costlyOnly] = [limit(app, signIn, told, keyOf), limit(app, costly, told, keyOf)];
  return async (request) => {
    await all(request);
    if (request.routeOptions.config.costly === true) await costlyOnly(request);
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
