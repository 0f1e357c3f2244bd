import swagger from "@fastify/swagger";
import swaggerUi from "@fastify/swagger-ui";
import type { FastifyInstance } from "fastify";
import { jsonSchemaTransform } from "fastify-type-provider-zod";

/** OpenAPI, made from the routes' own schemas, with a page to read it at /docs. */
export async function document(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: "3.1.0",
      info: {
        title: "Chockside",
        version: "1",
        description:
          "Plans start sessions and hands out their record. Signals themselves travel by Socket.IO at /live. " +
          "Errors are problem details (RFC 9457).",
      },
      components: { securitySchemes: { bearer: { type: "http", scheme: "bearer" } } },
      security: [{ bearer: [] }],
    },
    transform: jsonSchemaTransform,
  });
  await app.register(swaggerUi, {
    routePrefix: "/docs",
    // The page's own scripts are files, but its style sheets are set by script: that page alone may do so.
    staticCSP:
      "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; " +
      "object-src 'none'; base-uri 'none'; frame-ancestors 'none'",
  });
}
