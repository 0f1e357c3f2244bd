import { parseSync } from "vite";
import { isNode, visit } from "./nodes.ts";

const RULE = /^- \*\*([A-Z]{2,4}-\d+)\*\*/gm;
const MARK = /\[([A-Z]{2,4}-\d+(?:,\s*[A-Z]{2,4}-\d+)*)\]/g;
const TITLED = new Set(["it", "test", "describe"]);

/** Returns rule ids in the order in which a specification defines them; one defined twice appears twice. */
export function rulesIn(specification: string): string[] {
  return [...specification.matchAll(RULE)].map(([, id = ""]) => id);
}

/**
 * Returns the rule ids in the titles of a test file: `it("[CLR-3] …")`, `describe(…)`, `[CLR-3, HLD-2]`, template
 * strings, and the rows of an `it.each([…])` written in place. Comments and other strings do not count.
 * @throws Error when the source cannot be parsed
 */
export function idsIn(file: string, source: string): string[] {
  const { program, errors } = parseSync(file, source);
  if (errors[0]) throw new Error(`${file}: ${errors[0].message}`);
  const ids: string[] = [];
  visit(program, (node) => {
    if (node.type !== "CallExpression" || !TITLED.has(rootName(node.callee))) return;
    const [title] = node.arguments as unknown[];
    for (const text of [...texts(title), ...texts(node.callee)])
      for (const [, list = ""] of text.matchAll(MARK)) ids.push(...list.split(/,\s*/));
  });
  return [...new Set(ids)];
}

/**
 * Returns the faults between a specification and the tests (file name to ids in its titles); empty when there are none.
 */
export function faults(specification: string, tests: Map<string, string[]>): string[] {
  const rules = rulesIn(specification);
  const known = new Set(rules);
  const tested = new Set([...tests.values()].flat());
  return [
    ...[...new Set(rules.filter((id, n) => rules.indexOf(id) !== n))].map((id) => `${id} is defined twice`),
    ...[...known].filter((id) => !tested.has(id)).map((id) => `${id} has no test`),
    ...[...tests].flatMap(([file, ids]) =>
      ids.filter((id) => !known.has(id)).map((id) => `${file} names ${id}, which is no rule`),
    ),
  ];
}

/** Returns `it` for `it`, `it.concurrent`, `it.each(rows)` and `it.each<Row>(rows)`. */
function rootName(callee: unknown): string {
  if (!isNode(callee)) return "";
  if (callee.type === "Identifier") return String(callee.name);
  return rootName(callee.object ?? callee.callee ?? callee.tag);
}

/** Returns the string parts of an expression, without those in functions. */
function texts(expression: unknown): string[] {
  if (Array.isArray(expression)) return expression.flatMap(texts);
  if (!isNode(expression) || /Function/.test(expression.type)) return [];
  if (expression.type === "Literal") return typeof expression.value === "string" ? [expression.value] : [];
  if (expression.type === "TemplateElement")
    return [(expression.value as { cooked: string | null }).cooked ?? ""];
  return Object.values(expression).flatMap(texts);
}
