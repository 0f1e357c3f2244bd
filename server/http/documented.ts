import type { FastifyInstance, FastifyRequest, RouteOptions } from "fastify";
import { z } from "zod";
import { PROBLEMS, type ProblemName, problemSchema } from "./problems.ts";

declare module "fastify" {
  interface FastifyContextConfig {
    /** The problems that this route may answer, besides those that follow from its form; see `problemsOf`. */
    problems?: readonly ProblemName[];
    /** True behind `requireSignIn`. */
    signedIn?: boolean;
  }
}

/** Problems of every route: the wrong host, a fault of the program, a database that does not answer. */
const OF_ALL: readonly ProblemName[] = ["wrongHost", "internal", "notAvailable"];

type Form = Pick<RouteOptions, "config" | "schema">;

/** Returns every problem that a route may answer. */
export function problemsOf({ config = {}, schema = {} }: Form): Set<ProblemName> {
  const found = new Set<ProblemName>(OF_ALL);
  const add = (...names: ProblemName[]) => {
    for (const name of names) found.add(name);
  };
  if (config.unlimited !== true) add("tooMany");
  if (config.signedIn === true) add("signInNeeded", "proofNeeded", "outOfScope");
  if (schema.params !== undefined || schema.querystring !== undefined) add("malformed");
  if (schema.body !== undefined) add("malformed", "tooLarge", "wrongMediaType");
  add(...(config.problems ?? []));
  return found;
}

/** Returns true when the API's description has the problem for this request's route, or the request has no route. */
export function isDocumented({ routeOptions }: FastifyRequest, problem: ProblemName): boolean {
  return routeOptions.url === undefined || problemsOf(routeOptions as Form).has(problem);
}

/** The problems of every route, as the API's description shows them. */
export class DocumentedProblems {
  readonly #routes = new Map<string, RouteOptions>();

  /** Takes note of every route that is registered from now on. */
  watch(app: FastifyInstance): void {
    app.addHook("onRoute", (route) => {
      const path = route.url.replace(/:(\w+)/g, "{$1}");
      for (const method of [route.method].flat()) this.#routes.set(`${method.toLowerCase()} ${path}`, route);
    });
  }

  /** Adds the problems to an OpenAPI document. */
  addTo<T extends { paths?: object; components?: object }>(document: T): T {
    for (const [path, methods] of Object.entries(document.paths ?? {}))
      for (const [method, operation] of Object.entries(methods as Record<string, Operation>)) {
        const route = this.#routes.get(`${method} ${path}`);
        if (route) operation.responses = { ...operation.responses, ...responsesOf(problemsOf(route)) };
        const answer = operation.responses?.["200"];
        if (answer && operation.parameters?.some(({ name }) => name === "before")) answer.headers = NEXT_PAGE;
      }
    const components = (document.components ?? {}) as { schemas?: object };
    const { $schema: _, ...problem } = z.toJSONSchema(problemSchema);
    return {
      ...document,
      components: { ...components, schemas: { ...components.schemas, Problem: problem } },
    };
  }
}

interface Operation {
  parameters?: { name?: string }[];
  responses?: Record<string, { headers?: object }>;
}

/** The header of each list that comes a page at a time. */
const NEXT_PAGE = {
  Link: {
    description:
      'The address of the next page, with `rel="next"` (RFC 8288). The last page has none. A row that is there ' +
      "throughout is in exactly one page, whatever is added and removed meanwhile.",
    schema: { type: "string" },
  },
};

/** Returns a response for each status. Its description names the problems, by the last part of their `type`. */
function responsesOf(problems: ReadonlySet<ProblemName>): Record<string, object> {
  const statuses = [...new Set([...problems].map((name) => PROBLEMS[name][0]))].sort((a, b) => a - b);
  const response = (status: number) => {
    const here = [...problems].filter((name) => PROBLEMS[name][0] === status).sort();
    return {
      description: here.map((name) => `${name}: ${PROBLEMS[name][1]}`).join("; "),
      content: { "application/problem+json": { schema: { $ref: "#/components/schemas/Problem" } } },
    };
  };
  return Object.fromEntries(statuses.map((status) => [String(status), response(status)]));
}
