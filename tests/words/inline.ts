import { parseSync } from "vite";

/** A place in a source with words that should be in a catalogue. */
export interface Inline {
  line: number;
  words: string;
}

/** Attributes that a person reads or hears. */
const READ = /^(aria-label|aria-description|aria-valuetext|alt|label|placeholder|prompt|title|word|words)$/;

/** Attributes and properties whose words are the program's own. */
const NOT_READ =
  /^(class|d$|data-|points|style|transform|viewBox|preserveAspectRatio|patternTransform|autoComplete)/;

const LETTERS = /\p{L}{2}/u;

/** More than one word: a person reads it, in any place. */
const SENTENCE = /\p{L}{2,}[,:;.?!…]* \p{L}/u;

/** The name of the program, the same in every language. */
const NAME = "Chockside";

/** The people who repair the program read its errors; the words of a style or a query are no sentence. */
const PROGRAM = /^(var\(|\(prefers-|chockside\.|io server|image\/|M\$)/;

type Node = { type: string; start: number; [key: string]: unknown };

/**
 * Returns the words written in a source of the panels: in JSX, in an attribute that is read, or any sentence in a
 * string.
 */
export function inlineWords(name: string, source: string): Inline[] {
  const found: Inline[] = [];
  const take = (node: Node, words: string) =>
    found.push({ line: source.slice(0, node.start).split("\n").length, words: words.trim() });

  const visit = (node: Node, read: boolean) => {
    switch (node.type) {
      case "ImportDeclaration":
      case "ImportExpression":
      case "TSLiteralType":
      case "NewExpression":
      case "ThrowStatement":
        return;
      case "JSXText":
        if (LETTERS.test(node.value as string) && (node.value as string).trim() !== NAME)
          take(node, node.value as string);
        return;
      case "Literal": {
        const value = node.value;
        if (typeof value !== "string" || PROGRAM.test(value)) return;
        if (read ? LETTERS.test(value) : SENTENCE.test(value)) take(node, value);
        return;
      }
      case "TemplateLiteral": {
        const texts = (node.quasis as { value: { cooked: string } }[]).map((q) => q.value.cooked);
        const whole = texts.join(" ");
        if (!PROGRAM.test(whole) && texts.some((t) => (read ? LETTERS : SENTENCE).test(t)))
          take(node, texts.join("…"));
        for (const part of node.expressions as Node[]) visit(part, false);
        return;
      }
      case "JSXAttribute": {
        const attribute = String((node.name as Node).name);
        if (NOT_READ.test(attribute)) return;
        if (node.value) visit(node.value as Node, READ.test(attribute));
        return;
      }
      // The parts of a condition or a call are skipped; its results are read.
      case "ConditionalExpression":
        visit(node.test as Node, false);
        visit(node.consequent as Node, read);
        visit(node.alternate as Node, read);
        return;
      case "JSXExpressionContainer":
        visit(node.expression as Node, read);
        return;
      default:
        for (const value of Object.values(node))
          for (const child of Array.isArray(value) ? value : [value])
            if (child && typeof child === "object" && "type" in child) visit(child as Node, false);
    }
  };
  const { program, errors } = parseSync(name, source);
  if (errors.length > 0) throw new Error(`${name} cannot be parsed`);
  visit(program as unknown as Node, false);
  return found;
}
