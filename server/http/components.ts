import { jsonSchemaTransform } from "fastify-type-provider-zod";
import type { z } from "zod";
import { allNamed } from "./named.ts";

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
type Node = { [key: string]: Json };

const isNode = (json: Json | undefined): json is Node =>
  typeof json === "object" && json !== null && !Array.isArray(json);

/** Returns a text that is the same for two schemas of the same form, whatever their descriptions say. */
function formOf(json: Json, known: WeakMap<object, string>): string {
  if (typeof json !== "object" || json === null) return JSON.stringify(json);
  const before = known.get(json);
  if (before !== undefined) return before;
  const form = Array.isArray(json)
    ? `[${json.map((each) => formOf(each, known)).join()}]`
    : `{${Object.keys(json)
        .filter((key) => key !== "description" || isNode(json[key]))
        .sort()
        .map((key) => `${JSON.stringify(key)}:${formOf(json[key] ?? null, known)}`)
        .join()}}`;
  known.set(json, form);
  return form;
}

/** Returns the schema as the document has it: a value that is fixed is there a list of one. */
function withoutConst(json: Json): Json {
  if (Array.isArray(json)) return json.map(withoutConst);
  if (!isNode(json)) return json;
  const { const: fixed, ...rest } = json;
  const isFixed = fixed !== undefined && !isNode(fixed);
  const node = isFixed ? { ...rest, enum: [fixed] } : json;
  return Object.fromEntries(Object.entries(node).map(([key, value]) => [key, withoutConst(value)]));
}

/** Returns a schema as a route's answer has it, and as a route's body has it. */
function asJson(schema: z.ZodType): { output: Json; input: Json } {
  const route = { schema: { body: schema, response: { 200: schema } }, url: "/", route: {} };
  const { schema: made } = jsonSchemaTransform({ ...route, openapiObject: { openapi: "3.1.0" } } as never);
  const { body, response } = made as unknown as { body: Json; response: Record<string, Json> };
  return { output: withoutConst(response["200"] ?? null), input: withoutConst(body) };
}

/**
 * Returns the document with a component for each named schema that it uses, and references in the places of these. What
 * a body may leave out and an answer never does has two forms: the second component is then called `…Input`.
 */
export function withComponents<T extends { paths?: object; components?: object }>(document: T): T {
  const known = new WeakMap<object, string>();
  const byForm = new Map<string, { name: string; json: Json }>();
  for (const [name, schema] of allNamed()) {
    const { output, input } = asJson(schema);
    const add = (as: string, json: Json) => {
      const form = formOf(json, known);
      const other = byForm.get(form)?.name;
      if (other !== undefined && other !== name) throw new Error(`${name} and ${other} are the same schema`);
      byForm.set(form, byForm.get(form) ?? { name: as, json });
    };
    add(name, output);
    add(`${name}Input`, input);
  }
  const schemas: Record<string, Json> = {};
  const referred = (json: Json, isRoot = false): Json => {
    if (Array.isArray(json)) return json.map((each) => referred(each));
    if (!isNode(json)) return json;
    const found = isRoot ? undefined : byForm.get(formOf(json, known));
    if (!found) return Object.fromEntries(Object.entries(json).map(([key, value]) => [key, referred(value)]));
    if (!(found.name in schemas)) {
      // Kept before it is filled, because a schema may hold itself.
      schemas[found.name] = null;
      schemas[found.name] = referred(found.json, true);
    }
    const { description } = json;
    const ref = { $ref: `#/components/schemas/${found.name}` };
    return description === undefined ? ref : { ...ref, description };
  };
  const paths = referred((document.paths ?? {}) as Json);
  const components = (document.components ?? {}) as { schemas?: object };
  return {
    ...document,
    paths,
    components: { ...components, schemas: { ...components.schemas, ...schemas } },
  };
}
