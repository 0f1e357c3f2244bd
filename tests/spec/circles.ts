import { dirname, join } from "node:path";
import { parseSync } from "vite";
import { visit } from "./nodes.ts";

const IMPORTS = new Set([
  "ImportDeclaration",
  "ExportNamedDeclaration",
  "ExportAllDeclaration",
  "ImportExpression",
  "TSImportType",
]);

/**
 * Returns the relative paths that a file imports, types and dynamic imports included, joined to the file's own folder.
 * Imports whose path is computed at run time are left out.
 * @throws Error when the source cannot be parsed
 */
export function importsOf(file: string, source: string): string[] {
  const { program, errors } = parseSync(file, source);
  if (errors[0]) throw new Error(`${file}: ${errors[0].message}`);
  const found = new Set<string>();
  visit(program, (node) => {
    const path = IMPORTS.has(node.type) ? (node.source as { value?: unknown } | null)?.value : null;
    if (typeof path === "string" && path.startsWith(".")) found.add(join(dirname(file), path));
  });
  return [...found];
}

/**
 * Returns the ways from a file back to itself, each beginning and ending with that file; empty when there is no circle.
 */
export function circlesIn(imports: ReadonlyMap<string, readonly string[]>): string[][] {
  const circles: string[][] = [];
  const done = new Set<string>();
  const way: string[] = [];
  const follow = (file: string) => {
    const at = way.indexOf(file);
    if (at >= 0) circles.push([...way.slice(at), file]);
    if (at >= 0 || done.has(file)) return;
    way.push(file);
    for (const next of imports.get(file) ?? []) follow(next);
    way.pop();
    done.add(file);
  };
  for (const file of imports.keys()) follow(file);
  return circles;
}
