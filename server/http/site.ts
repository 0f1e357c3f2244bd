import { existsSync } from "node:fs";
import { join } from "node:path";
import fastifyStatic from "@fastify/static";
import type { FastifyInstance } from "fastify";
import { ProblemError, send } from "./problem.ts";

/** Serves the built panels. Every page address gets index.html. */
export async function serveSite(app: FastifyInstance, folder: string): Promise<void> {
  const built = existsSync(join(folder, "index.html"));
  if (built) {
    await app.register(fastifyStatic, {
      root: folder,
      wildcard: false,
      preCompressed: true,
      setHeaders(reply, path) {
        // Vite puts a digest of the content into names under assets/, so their content never changes.
        const forEver = path.includes("/assets/");
        reply.header("cache-control", forEver ? "public, max-age=31536000, immutable" : "no-cache");
      },
    });
  }
  app.setNotFoundHandler((request, reply) => {
    const path = request.url.split("?")[0] ?? "";
    const isPage =
      (request.method === "GET" || request.method === "HEAD") &&
      !/^\/(api|health|docs|live)(\/|$)/.test(path);
    if (isPage && built && !path.startsWith("/assets/")) return reply.sendFile("index.html");
    const detail =
      isPage && !built ? "The panels are not built: run npm run build" : `There is nothing at ${path}`;
    return send(reply, new ProblemError("notFound", detail));
  });
}
