/** A node of a syntax tree (ESTree). */
export type Node = { type: string } & Record<string, unknown>;

export const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as Node).type === "string";

/** Calls `see` for every node in `value`, outer nodes first. */
export function visit(value: unknown, see: (node: Node) => void): void {
  if (Array.isArray(value)) for (const each of value) visit(each, see);
  else if (isNode(value)) {
    see(value);
    for (const each of Object.values(value)) visit(each, see);
  }
}
