import { parseSync } from "vite";
import { isNode, type Node, visit } from "./nodes.ts";

/** One entry of a table, and the text of the table's file without it. */
export interface Removal {
  /** The keys that lead to the entry, joined by points; the table's name first. */
  entry: string;
  text: string;
}

/** `Record<Kind, …>` or `{ [K in Kind]: … }`, which need an entry for each kind. */
const TOTAL = /\bRecord<(?!string\b|number\b|never\b)|\[\w+ in \w+\](?!\?)/;
const PARTIAL = /\bPartial</;
/** A table whose keys may be anything. */
const OPEN = /\bRecord<(string|number)\b/;

/**
 * Returns a removal for each entry of each table that is total by its type, anywhere in a file.
 * @throws Error when the source cannot be parsed
 */
export function removalsOfTables(file: string, source: string): Removal[] {
  return tablesIn(file, source).flatMap(({ name, type, object }) =>
    TOTAL.test(type) && !PARTIAL.test(type)
      ? propertiesOf(object).map((property) => removalOf(source, [name, keyOf(source, property)], property))
      : [],
  );
}

/** Returns a removal for each entry of each table in a file, whatever its type. */
export function removalsOfEntries(file: string, source: string): Removal[] {
  return tablesIn(file, source).flatMap(({ name, object }) =>
    propertiesOf(object).map((property) => removalOf(source, [name, keyOf(source, property)], property)),
  );
}

/**
 * Returns a removal for each entry of a file's constants, at every depth; tables with open keys are left out.
 * @throws Error when the source cannot be parsed
 */
export function removalsOfLeaves(file: string, source: string): Removal[] {
  const enter = (object: Node, path: readonly string[]): Removal[] =>
    propertiesOf(object).flatMap((property) => {
      const keys = [...path, keyOf(source, property)];
      const inner = objectIn(property.value);
      return [removalOf(source, keys, property), ...(inner ? enter(inner, keys) : [])];
    });
  return tablesIn(file, source).flatMap(({ name, type, object }) =>
    OPEN.test(type) ? [] : enter(object, [name]),
  );
}

interface Table {
  name: string;
  /** The text of its type; empty where the compiler infers it. */
  type: string;
  object: Node;
}

/** Returns `const NAME: Type = {…}`, and `{…} satisfies Type` anywhere in the file. */
function tablesIn(file: string, source: string): Table[] {
  const { program, errors } = parseSync(file, source);
  if (errors[0]) throw new Error(`${file}: ${errors[0].message}`);
  const textOf = (node: unknown) => (isNode(node) ? source.slice(Number(node.start), Number(node.end)) : "");
  const tables = new Map<Node, Table>();
  visit(program, (node) => {
    const object = objectIn(node.type === "VariableDeclarator" ? node.init : node);
    if (!object || tables.has(object)) return;
    if (node.type === "VariableDeclarator") {
      const { name, typeAnnotation } = node.id as Node;
      tables.set(object, { name: String(name), type: textOf(typeAnnotation ?? typeOf(node.init)), object });
    } else if (node.type === "TSSatisfiesExpression")
      tables.set(object, { name: "", type: textOf(node.typeAnnotation), object });
  });
  return [...tables.values()];
}

function typeOf(expression: unknown): unknown {
  return isNode(expression) && expression.type === "TSSatisfiesExpression" ? expression.typeAnnotation : null;
}

/** Returns the object literal of an expression, without its type. */
function objectIn(expression: unknown): Node | null {
  if (!isNode(expression)) return null;
  if (expression.type === "ObjectExpression") return expression;
  return /^TS(Satisfies|As)Expression$/.test(expression.type) ? objectIn(expression.expression) : null;
}

function propertiesOf(object: Node): Node[] {
  return (object.properties as Node[]).filter(({ type }) => type === "Property");
}

function keyOf(source: string, { key }: Node): string {
  const { start, end } = key as Node;
  return source.slice(Number(start), Number(end)).replaceAll('"', "");
}

function removalOf(source: string, keys: readonly string[], { start, end }: Node): Removal {
  const after = source.slice(Number(end)).replace(/^\s*,/, "");
  return { entry: keys.join("."), text: source.slice(0, Number(start)) + after };
}
