import helmet from "@fastify/helmet";
import rateLimit from "@fastify/rate-limit";
import type { FastifyInstance } from "fastify";
import type { Proofs } from "../auth/proofs.ts";
import { hostAllowed } from "../hosts.ts";
import type { Tls } from "../tls.ts";
import { limitByAddress } from "./limits.ts";
import { ProblemError } from "./problem.ts";

/** Content security policy of our pages: own files only, no inline script and no inline style. */
const PAGES = {
  defaultSrc: ["'self'"],
  scriptSrc: ["'self'"],
  scriptSrcAttr: ["'none'"],
  styleSrc: ["'self'"],
  // A picture of a defect comes with the sign-in, and is shown from memory.
  imgSrc: ["'self'", "data:", "blob:"],
  fontSrc: ["'self'"],
  connectSrc: ["'self'"],
  mediaSrc: ["'self'", "data:"],
  workerSrc: ["'self'"],
  manifestSrc: ["'self'"],
  objectSrc: ["'none'"],
  baseUri: ["'none'"],
  formAction: ["'self'"],
  frameAncestors: ["'none'"],
};

/** Seconds a browser must use TLS for this host (HSTS). */
const HSTS_S = 365 * 24 * 3600;

export async function secure(
  app: FastifyInstance,
  {
    proofs,
    tls,
    origins,
    perMinute,
  }: {
    proofs: Proofs;
    tls: Tls | null;
    origins: readonly string[];
    /** Requests per address and minute. */
    perMinute: number;
  },
): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: PAGES },
    // Without a trusted certificate, HSTS would remove the only way past the browser's warning (RFC 6797 section
    // 12.1). Behind a proxy that ends TLS, the proxy sends it.
    strictTransportSecurity: tls?.publiclyTrusted ? { maxAge: HSTS_S, includeSubDomains: false } : false,
    // Browsers accept these two headers on secure origins only, and log a warning elsewhere.
    crossOriginOpenerPolicy: tls !== null,
    originAgentCluster: tls !== null,
    referrerPolicy: { policy: "no-referrer" },
    xFrameOptions: { action: "deny" },
  });
  // Registered after helmet, so that this refusal carries its headers too.
  app.addHook("onRequest", async ({ headers }) => {
    if (!hostAllowed(headers.host, origins))
      throw new ProblemError("wrongHost", "This server goes by another name: name it in CHOCKSIDE_ORIGINS");
  });
  app.addHook("onSend", async (request, reply) => {
    reply.header("permissions-policy", "camera=(self), microphone=(), geolocation=(), payment=()");
    if (request.url.startsWith("/api/") && !reply.hasHeader("cache-control"))
      reply.header("cache-control", "no-store");
    // The nonce for this device's next proof (RFC 9449 section 8.2).
    if (request.headers.dpop !== undefined || reply.statusCode === 401)
      reply.header("dpop-nonce", proofs.nonce());
  });
  await app.register(rateLimit, {
    global: false,
    errorResponseBuilder: (_request, { ttl }) =>
      new ProblemError(
        "tooMany",
        `Too many sign-in attempts from this address: wait ${Math.ceil(ttl / 1000)} s`,
        {
          retryAfterMs: ttl,
        },
      ),
  });
  limitByAddress(app, perMinute);
}
