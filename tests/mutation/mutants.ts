import { parseAst } from "vite";

/** One small wrong change of a source: `text` replaces `start`…`end`. */
export interface Change {
  kind: string;
  start: number;
  end: number;
  text: string;
}

/** An expression or block of a source, with the changes made in it. */
export interface Spot {
  start: number;
  end: number;
  block: boolean;
  changes: Change[];
}

interface Tree {
  type: string;
  start: number;
  end: number;
  [key: string]: unknown;
}

const SWAPPED: Readonly<Record<string, readonly string[]>> = {
  "===": ["!=="],
  "!==": ["==="],
  "<": ["<=", ">="],
  "<=": ["<", ">"],
  ">": [">=", "<="],
  ">=": [">", "<"],
  "+": ["-"],
  "-": ["+"],
  "*": ["/"],
  "/": ["*"],
  "%": ["*"],
  "&&": ["||"],
  "||": ["&&"],
  "??": ["&&"],
};
/** Replaces the name of a call by another; null removes the call and keeps its object. */
const CALLS: Readonly<Record<string, string | null>> = {
  some: "every",
  every: "some",
  min: "max",
  max: "min",
  filter: null,
  slice: null,
  concat: null,
  find: "findLast",
  findLast: "find",
};
/** Never mutated: types and imports, and words, which the types check. */
const LEFT_ALONE = /^(TS(?!AsExpression|NonNullExpression|SatisfiesExpression)|Import|TemplateElement)/;

/** Returns every place of a TypeScript source where something small can be broken, the outermost first. */
export function spotsOf(source: string): Spot[] {
  const spots = new Map<string, Spot>();
  // The object may stand in parentheses, which its own place does not count.
  const dotBefore = ({ object, property }: Tree): number => {
    const { end } = object as Tree;
    const between = source.slice(end, (property as Tree).start);
    return end + between.replace(/\??\.\s*$/, "").length;
  };
  const add = (host: Tree, change: Change, block = false) => {
    const key = `${host.start} ${host.end} ${block}`;
    const spot = spots.get(key) ?? { start: host.start, end: host.end, block, changes: [] };
    const same = source.slice(change.start, change.end) === change.text;
    if (!same && !spot.changes.some((c) => c.start === change.start && c.text === change.text))
      spot.changes.push(change);
    spots.set(key, spot);
  };

  const visit = (node: Tree, chain: Tree | null) => {
    if (LEFT_ALONE.test(node.type)) return;
    // The links of a?.b.c belong together and are changed as one.
    const host = chain ?? node;
    const change = (kind: string, text: string, on: { start: number; end: number } = node) =>
      add(host, { kind, start: on.start, end: on.end, text });
    const text = (part: unknown) => source.slice((part as Tree).start, (part as Tree).end);

    switch (node.type) {
      case "IfStatement":
      case "ConditionalExpression": {
        const test = node.test as Tree;
        add(test, { kind: "condition", start: test.start, end: test.end, text: "true" });
        add(test, { kind: "condition", start: test.start, end: test.end, text: "false" });
        break;
      }
      case "BinaryExpression":
      case "LogicalExpression": {
        const [left, right] = [node.left as Tree, node.right as Tree];
        for (const operator of SWAPPED[node.operator as string] ?? [])
          change("operator", `(${text(left)}) ${operator} (${text(right)})`);
        if (/^[=!<>&|]/.test(node.operator as string)) {
          change("condition", "true");
          change("condition", "false");
        }
        break;
      }
      case "UnaryExpression":
        if (node.operator === "!" || node.operator === "-") change("unary", `(${text(node.argument)})`);
        break;
      case "Literal":
        if (typeof node.value === "boolean") change("boolean", String(!node.value));
        break;
      case "ArrayExpression":
        if ((node.elements as unknown[]).length > 0) change("array", "[]");
        break;
      case "ObjectExpression":
        if ((node.properties as unknown[]).length > 0) change("object", "({})");
        break;
      case "ArrowFunctionExpression":
        if ((node.body as Tree).type !== "BlockStatement") change("function", "(() => undefined)");
        break;
      case "BlockStatement":
        if ((node.body as unknown[]).length > 0)
          add(node, { kind: "block", start: node.start, end: node.end, text: "" }, true);
        break;
      case "SwitchCase": {
        const body = node.consequent as Tree[];
        const [first, last] = [body[0], body.at(-1)];
        if (first && last && node.test) {
          const whole = { ...node, start: first.start, end: last.end };
          add(whole, { kind: "case", start: whole.start, end: whole.end, text: "" }, true);
        }
        break;
      }
      case "MemberExpression":
        if (node.optional) {
          const object = node.object as Tree;
          const at = source.indexOf("?.", object.end);
          change("optional", node.computed ? "" : ".", { start: at, end: at + 2 });
        }
        break;
      case "CallExpression": {
        const callee = node.callee as Tree;
        if (callee.type !== "MemberExpression") break;
        const name = text(callee.property);
        const other = CALLS[name];
        if (other) change("call", other, callee.property as Tree);
        else if (other === null) change("call", "", { start: dotBefore(callee), end: node.end });
        break;
      }
    }
    for (const key in node) {
      if (key === "type" || /typeAnnotation|typeArguments|typeParameters|returnType/.test(key)) continue;
      const spine = key === "object" || key === "callee" || key === "expression";
      const inner = node.type === "ChainExpression" ? node : spine ? chain : null;
      for (const part of [node[key]].flat()) {
        if (isTree(part)) visit(part, inner);
      }
    }
  };
  visit(parseAst(source, { lang: "ts" }) as unknown as Tree, null);
  return [...spots.values()]
    .filter((s) => s.changes.length > 0)
    .sort((a, b) => a.start - b.start || b.end - a.end || Number(b.block) - Number(a.block));
}

function isTree(part: unknown): part is Tree {
  return typeof part === "object" && part !== null && typeof (part as Tree).type === "string";
}
