import type { FastifyError, FastifyInstance, FastifyReply } from "fastify";
import { hasZodFastifySchemaValidationErrors } from "fastify-type-provider-zod";
import type { Refusals } from "../audit.ts";
import { OfficeRefused } from "../auth/refused.ts";
import { HouseRefused } from "../house/refused.ts";
import { NoSuchSession } from "../sessions/errors.ts";
import { isDatabaseFault } from "../store/database-fault.ts";
import { StoreFailure } from "../store/events.ts";
import { TRACES } from "../telemetry/trace.ts";
import { TypeRefused } from "../types/refused.ts";
import { isDocumented } from "./documented.ts";
import { PROBLEMS, type Problem, type ProblemName } from "./problems.ts";

/** Status codes that are written to the audit log: failed access, and requests that our panels never send. */
const AUDITED: readonly number[] = [400, 401, 403, 413, 415, 421, 429];

/** The error to throw in a route. It becomes a problem reply. */
export class ProblemError extends Error {
  override readonly name = "ProblemError";
  readonly kind: ProblemName;
  readonly problem: Problem;
  readonly retryAfterS: number | null;

  constructor(
    kind: ProblemName,
    detail: string,
    more: { errors?: Problem["errors"]; retryAfterMs?: number } = {},
  ) {
    super(detail);
    const [status, title] = PROBLEMS[kind];
    this.kind = kind;
    this.problem = { type: `urn:chockside:problem:${kind}`, title, status, detail };
    if (more.errors) this.problem.errors = more.errors;
    this.retryAfterS = more.retryAfterMs === undefined ? null : Math.ceil(more.retryAfterMs / 1000);
  }
}

/** Converts every error into a reply. An internal error is logged in full, but the reply does not show its cause. */
export function answerErrors(app: FastifyInstance, refusals: Refusals): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    const found = asProblem(error);
    TRACES.problem.publish({
      route: `${request.method} ${request.routeOptions.url}`,
      problem: found.kind,
      documented: isDocumented(request, found.kind),
    });
    if (found.problem.status >= 500) request.log.error({ err: error }, "request failed");
    if (AUDITED.includes(found.problem.status))
      refusals.refused(found.kind, {
        address: request.ip,
        path: request.routeOptions.url ?? "",
        person: request.identity?.person.id,
        device: request.identity?.device.id,
        account: request.account?.id,
      });
    return send(reply, found);
  });
}

export function send(reply: FastifyReply, { problem, retryAfterS }: ProblemError): FastifyReply {
  if (retryAfterS !== null) reply.header("retry-after", String(retryAfterS));
  // Serialise here: the route's response schema describes its results only, not errors.
  return reply
    .code(problem.status)
    .header("content-type", "application/problem+json; charset=utf-8")
    .serializer((body: unknown) => (typeof body === "string" ? body : JSON.stringify(body)))
    .send(problem);
}

function asProblem(error: FastifyError): ProblemError {
  if (error instanceof ProblemError) return error;
  if (hasZodFastifySchemaValidationErrors(error)) {
    const errors = error.validation.map((issue) => ({
      path: [error.validationContext, ...issue.instancePath.split("/").filter(Boolean)].join("."),
      message: issue.message ?? "is not valid",
    }));
    return new ProblemError("malformed", errors.map((e) => `${e.path}: ${e.message}`).join("; "), { errors });
  }
  if (error instanceof TypeRefused)
    return new ProblemError(error.reason, error.message, { errors: error.faults });
  if (error instanceof HouseRefused)
    return new ProblemError(
      error.reason,
      error.message,
      error.faults.length > 0 ? { errors: error.faults } : {},
    );
  if (error instanceof OfficeRefused) return new ProblemError(error.reason, error.message);
  if (error instanceof NoSuchSession) return new ProblemError("notFound", error.message);
  if (error instanceof StoreFailure || isDatabaseFault(error))
    return new ProblemError(
      "notAvailable",
      "The record cannot be read or written now: go on by hand signals and paper",
    );
  switch (error.code) {
    case "FST_ERR_CTP_BODY_TOO_LARGE":
      return new ProblemError("tooLarge", "The body is larger than the server takes");
    case "FST_ERR_CTP_INVALID_MEDIA_TYPE":
      return new ProblemError("wrongMediaType", "Send JSON, with content-type application/json");
    case "FST_ERR_CTP_EMPTY_JSON_BODY":
    case "FST_ERR_CTP_INVALID_JSON_BODY":
    case "FST_ERR_CTP_INVALID_CONTENT_LENGTH":
      return new ProblemError("malformed", "The body is not JSON");
  }
  const { statusCode } = error;
  if (statusCode === 404) return new ProblemError("notFound", "There is nothing at this address");
  if (statusCode !== undefined && statusCode < 500) return new ProblemError("malformed", error.message);
  return new ProblemError(
    "internal",
    "It was logged; nothing of what you asked is certain to have been done",
  );
}
