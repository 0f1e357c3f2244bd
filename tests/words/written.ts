import { readdirSync, readFileSync } from "node:fs";
import { parseSync } from "vite";

type Node = { type: string; [key: string]: unknown };

/** Stands for a place in a text that is put together; no language has this word. */
export const HELD = "71";

const LETTERS = /\p{L}{2}/u;

/** Returns the texts in a source, each with a figure in its places, if `isRead` accepts what they stand in. */
export function writtenIn(file: string, isRead: (text: string, above: readonly Node[]) => boolean): string[] {
  const { program, errors } = parseSync(file, readFileSync(file, "utf8"));
  if (errors.length > 0) throw new Error(`${file} cannot be parsed`);
  const found: string[] = [];
  const visit = (node: Node, above: readonly Node[]) => {
    if (/^(Import|TS(?!As|Satisfies|NonNull))/.test(node.type)) return;
    const text = textOf(node);
    if (text !== null && LETTERS.test(text.replaceAll(HELD, "")) && isRead(text, above)) found.push(text);
    for (const value of Object.values(node))
      for (const child of Array.isArray(value) ? value : [value])
        if (child && typeof child === "object" && "type" in child) visit(child as Node, [...above, node]);
  };
  visit(program as unknown as Node, []);
  return found;
}

function textOf(node: Node): string | null {
  if (node.type === "Literal") return typeof node.value === "string" ? node.value : null;
  if (node.type !== "TemplateLiteral") return null;
  return (node.quasis as { value: { cooked: string } }[]).map((q) => q.value.cooked).join(HELD);
}

/** Returns the name of the function of which this is an argument, or of the property of which it is the value. */
export function standsIn(above: readonly Node[]): string {
  const node = above.at(-1);
  if (node?.type === "CallExpression" || node?.type === "NewExpression")
    return String(
      (node.callee as Node).name ?? ((node.callee as Node).property as Node | undefined)?.name ?? "",
    );
  if (node?.type === "Property") return String((node.key as Node).name ?? "");
  return "";
}

/** Returns the name with which a variable is declared. */
export const nameOf = (declared: Node): string => String((declared.id as Node | undefined)?.name ?? "");

export const sourcesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((f) => f.endsWith(".ts"))
    .map((f) => `${folder}/${f}`);

/** Folders of shared/ that hold the rules of a session, one for each topic. */
export const RULES = [
  "shared/aircraft",
  "shared/field",
  "shared/wheels",
  "shared/alerts",
  "shared/asks",
  "shared/card",
  "shared/checks",
  "shared/conditions",
  "shared/defects",
  "shared/drills",
  "shared/engine",
  "shared/guard",
  "shared/leaves",
  "shared/overrides",
  "shared/plan",
  "shared/posts",
  "shared/power",
  "shared/propeller",
  "shared/readings",
  "shared/runUp",
  "shared/session",
  "shared/signals",
  "shared/stops",
  "shared/weather",
];
