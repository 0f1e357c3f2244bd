import { createHash, timingSafeEqual } from "node:crypto";
import type { FastifyPluginAsync, FastifyRequest } from "fastify";
import type { Metrics } from "../telemetry/metrics.ts";
import { ProblemError } from "./problem.ts";

export interface MetricsOptions {
  metrics: Metrics;
  /** The bearer token that a scraper on another machine must send. Null: only this machine may read the metrics. */
  token: string | null;
}

export const metricsRoute: FastifyPluginAsync<MetricsOptions> = async (app, { metrics, token }) => {
  app.get(
    "/metrics",
    {
      config: { problems: ["signInNeeded"] },
      schema: {
        operationId: "readMetrics",
        tags: ["health"],
        summary: "Figures for Prometheus, for this machine or with the token of the settings",
      },
    },
    async (request, reply) => {
      if (!isHere(request) && !bears(request, token))
        throw new ProblemError(
          "signInNeeded",
          "Metrics are for this machine, or for the token in CHOCKSIDE_METRICS_TOKEN",
        );
      return reply
        .header("content-type", metrics.registry.contentType)
        .send(await metrics.registry.metrics());
    },
  );
};

/** Headers by which proxies speak for others, and the names of this machine for itself. */
const PROXIES =
  /^(forwarded|via|x-(forwarded|real|client|cluster|original|envoy|proxyuser)\b.*|(true|cf|fastly)-.*ip|remote-addr)$/;
const HERE = /^(localhost|127(\.\d+){3}|\[::1\])(:\d+)?$/i;

/** Returns true when the request comes from this machine and not through a proxy on it. */
function isHere({ socket, headers }: FastifyRequest): boolean {
  const proxied = Object.keys(headers).some((name) => PROXIES.test(name));
  if (proxied || !HERE.test(headers.host ?? "")) return false;
  return /^(::ffff:)?127\.|^::1$/.test(socket.remoteAddress ?? "");
}

function bears({ headers }: FastifyRequest, token: string | null): boolean {
  if (token === null) return false;
  const digest = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(digest(headers.authorization ?? ""), digest(`Bearer ${token}`));
}
