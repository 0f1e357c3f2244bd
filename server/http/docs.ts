import swagger from "@fastify/swagger";
import swaggerUi from "@fastify/swagger-ui";
import type { FastifyInstance } from "fastify";
import { jsonSchemaTransform } from "fastify-type-provider-zod";
import { asyncApi } from "../live/asyncapi.ts";
import { VERSION } from "../version.ts";
import { withComponents } from "./components.ts";
import { DocumentedProblems } from "./documented.ts";
import { refuseUnknownFilters } from "./known-filters.ts";
import { nameShared } from "./named-shared.ts";

/** Serves OpenAPI, generated from the routes' schemas, with a page at /docs. */
export async function document(app: FastifyInstance): Promise<void> {
  refuseUnknownFilters(app);
  nameShared();
  const problems = new DocumentedProblems();
  problems.watch(app);
  await app.register(swagger, {
    openapi: {
      openapi: "3.1.0",
      info: {
        title: "Chockside",
        version: VERSION,
        description:
          "Plans start sessions and hands out their record. Signals themselves travel by Socket.IO at /live, which /docs/asyncapi.json describes. " +
          "Errors are problem details (RFC 9457).",
      },
      components: { securitySchemes: { bearer: { type: "http", scheme: "bearer" } } },
      security: [{ bearer: [] }],
    },
    transform: jsonSchemaTransform,
    transformObject: (document) =>
      "openapiObject" in document
        ? problems.addTo(withComponents(document.openapiObject))
        : document.swaggerObject,
  });
  const socket = asyncApi();
  app.get("/docs/asyncapi.json", { schema: { hide: true } }, async () => socket);
  await app.register(swaggerUi, {
    routePrefix: "/docs",
    // Swagger UI sets inline styles from script, so this page alone allows them. Its scripts are files.
    staticCSP:
      "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; " +
      "object-src 'none'; base-uri 'none'; frame-ancestors 'none'",
  });
}
