/** A part of a JSON Schema (draft 2020-12), with the keywords that the form uses. */
export interface Node {
  $ref?: string;
  $defs?: Record<string, Node>;
  type?: string;
  description?: string;
  properties?: Record<string, Node>;
  required?: string[];
  items?: Node | boolean;
  prefixItems?: Node[];
  minItems?: number;
  maxItems?: number;
  maxLength?: number;
  enum?: (string | number)[];
  const?: string | number | boolean | null;
  anyOf?: Node[];
  oneOf?: Node[];
}

/** The kind of entry for a part of the schema. */
export type Form =
  | { is: "fixed"; value: unknown }
  | { is: "choice"; of: (string | number)[] }
  /** Any number of the values of an enumeration. */
  | { is: "choices"; of: (string | number)[] }
  | { is: "number" }
  | { is: "text"; long: boolean }
  | { is: "yesNo" }
  /** A value or null. */
  | { is: "nullable"; inner: Node }
  /** One of several forms. */
  | { is: "oneOf"; of: Node[] }
  /** Members by name. `figure` marks those with a value and a source, which share one line. */
  | { is: "parts"; parts: [string, Node][]; required: ReadonlySet<string>; figure: boolean }
  | { is: "list"; item: Node; least: number; most: number }
  | { is: "tuple"; items: Node[] }
  | { is: "unknown" };

/**
 * Returns the form for a part of the schema.
 * @param root the schema that `$ref` points into
 */
export function formOf(given: Node, root: Node): Form {
  const node = resolve(given, root);
  if (node.const !== undefined) return { is: "fixed", value: node.const };
  if (node.enum)
    return node.enum.length === 1 ? { is: "fixed", value: node.enum[0] } : { is: "choice", of: node.enum };
  const forms = node.anyOf ?? node.oneOf;
  if (forms) {
    const some = forms.filter((f) => resolve(f, root).type !== "null");
    const [only] = some;
    if (only && some.length === 1) return { is: "nullable", inner: only };
    return { is: "oneOf", of: some };
  }
  switch (node.type) {
    case "number":
    case "integer":
      return { is: "number" };
    case "string":
      return { is: "text", long: (node.maxLength ?? 0) > 120 };
    case "boolean":
      return { is: "yesNo" };
    case "array":
      return listForm(node, root);
    case "object": {
      const parts = Object.entries(node.properties ?? {});
      const names = new Set(parts.map(([name]) => name));
      const figure = (names.has("value") && names.has("source")) || (names.has("basis") && names.has("text"));
      return node.properties
        ? { is: "parts", parts, required: new Set(node.required ?? []), figure }
        : { is: "unknown" };
    }
    default:
      return { is: "unknown" };
  }
}

function listForm(node: Node, root: Node): Form {
  if (node.prefixItems) return { is: "tuple", items: node.prefixItems };
  if (typeof node.items !== "object") return { is: "unknown" };
  const item = formOf(node.items, root);
  if (item.is === "choice") return { is: "choices", of: item.of };
  return {
    is: "list",
    item: node.items,
    least: node.minItems ?? 0,
    most: node.maxItems ?? Number.POSITIVE_INFINITY,
  };
}

export function resolve(node: Node, root: Node): Node {
  if (!node.$ref) return node;
  const found = root.$defs?.[node.$ref.replace("#/$defs/", "")];
  if (!found) throw new Error(`the schema has no ${node.$ref}`);
  return resolve(found, root);
}

/** A type from before sources were asked of every measure lacks some; a new part of a type is asked for its source. */
const asked = (name: string, required: ReadonlySet<string>) => required.has(name) || name === "source";

/** Returns a copy in which every member that is asked for and missing is there and blank. */
export function completed(value: unknown, node: Node, root: Node): unknown {
  if (value === undefined) return blank(node, root);
  const form = formOf(node, root);
  if (form.is === "list" && Array.isArray(value)) return value.map((v) => completed(v, form.item, root));
  if (form.is !== "parts" || typeof value !== "object" || value === null) return value;
  const members = value as Readonly<Record<string, unknown>>;
  const parts = form.parts.filter(([name]) => asked(name, form.required) || members[name] !== undefined);
  return {
    ...members,
    ...Object.fromEntries(parts.map(([name, part]) => [name, completed(members[name], part, root)])),
  };
}

/** Returns a start value: only the members that are asked for, all empty, so that every gap is reported as a fault. */
export function blank(node: Node, root: Node): unknown {
  const form = formOf(node, root);
  switch (form.is) {
    case "fixed":
      return form.value;
    case "choice":
    case "text":
      return "";
    case "choices":
      return [];
    case "yesNo":
      return false;
    case "number":
    case "nullable":
    case "unknown":
      return null;
    case "oneOf":
      return form.of[0] ? blank(form.of[0], root) : null;
    case "parts":
      return Object.fromEntries(
        form.parts
          .filter(([name]) => asked(name, form.required))
          .map(([name, part]) => [name, blank(part, root)]),
      );
    case "list":
      return Array.from({ length: form.least }, () => blank(form.item, root));
    case "tuple":
      return form.items.map((item) => blank(item, root));
  }
}

/** Returns the index of the form that fits the value best, by missing and unknown members. */
export function formAt(value: unknown, of: readonly Node[], root: Node): number {
  if (typeof value !== "object" || value === null) return 0;
  const fit = of.map((node) => {
    const { required = [], properties = {} } = resolve(node, root);
    const missing = required.filter((name) => !(name in value)).length;
    const strange = Object.keys(value).filter((name) => !(name in properties)).length;
    return missing + strange;
  });
  return fit.indexOf(Math.min(...fit));
}
