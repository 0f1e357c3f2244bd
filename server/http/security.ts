import helmet from "@fastify/helmet";
import rateLimit from "@fastify/rate-limit";
import type { FastifyInstance } from "fastify";
import type { Proofs } from "../auth/proofs.ts";
import { hostAllowed } from "../hosts.ts";
import type { Tls } from "../tls.ts";
import { limitByAddress } from "./limits.ts";
import { ProblemError } from "./problem.ts";

/** What a page of ours may load: its own files and nothing else. No inline script, no inline style sheet. */
const PAGES = {
  defaultSrc: ["'self'"],
  scriptSrc: ["'self'"],
  scriptSrcAttr: ["'none'"],
  styleSrc: ["'self'"],
  imgSrc: ["'self'", "data:"],
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

/** How long a browser shall come by TLS alone. Seconds. */
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
    /** Requests one address may make. */
    perMinute: number;
  },
): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: PAGES },
    // With a certificate nobody vouches for it would take away the only way past a browser's warning (RFC 6797
    // section 12.1); behind a proxy that ends TLS, the proxy says it.
    strictTransportSecurity: tls?.vouched ? { maxAge: HSTS_S, includeSubDomains: false } : false,
    // Browsers heed these two on secure origins alone, and complain of them elsewhere.
    crossOriginOpenerPolicy: tls !== null,
    originAgentCluster: tls !== null,
    referrerPolicy: { policy: "no-referrer" },
    xFrameOptions: { action: "deny" },
  });
  // After the headers, so that this refusal carries them as every answer does.
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
