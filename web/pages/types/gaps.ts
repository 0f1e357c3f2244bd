import type { TypeFault } from "../../../shared/types/validate.ts";

/** Returns what stands at a path of names and indexes joined by dots; undefined when nothing does. */
function valueAt(root: unknown, path: string): unknown {
  if (path === "") return root;
  return path
    .split(".")
    .reduce<unknown>(
      (at, step) => (at as Readonly<Record<string, unknown>> | null | undefined)?.[step],
      root,
    );
}

/** Returns true for a fault of which nothing was entered yet, as against something wrong. */
export function isGap({ path }: TypeFault, entered: unknown): boolean {
  const value = valueAt(entered, path);
  return (
    value === undefined || value === null || value === "" || (Array.isArray(value) && value.length === 0)
  );
}

/** A source without its figure. */
interface Given {
  basis: string;
  text: string;
}

const isSource = (v: Readonly<Record<string, unknown>>) =>
  typeof v.basis === "string" && typeof v.text === "string";

/** Returns the different documents and people that the sources name, in their order. */
export function sourcesIn(value: unknown, found: Given[] = []): Given[] {
  if (typeof value !== "object" || value === null) return found;
  const members = value as Readonly<Record<string, unknown>>;
  if (isSource(members)) {
    const { basis, text } = members as unknown as Given;
    if (basis !== "" && text !== "" && !found.some((g) => g.text === text && g.basis === basis))
      found.push({ basis, text });
    return found;
  }
  for (const inner of Object.values(members)) sourcesIn(inner, found);
  return found;
}

/** Returns the number of sources that are quite blank. */
export function blankSources(value: unknown): number {
  if (typeof value !== "object" || value === null) return 0;
  const members = value as Readonly<Record<string, unknown>>;
  if (isSource(members)) return members.basis === "" && members.text === "" ? 1 : 0;
  return Object.values(members).reduce<number>((sum, inner) => sum + blankSources(inner), 0);
}

/** Returns a copy in which every blank source is this one, without a page. */
export function withSource(value: unknown, source: Given): unknown {
  if (Array.isArray(value)) return value.map((v) => withSource(v, source));
  if (typeof value !== "object" || value === null) return value;
  const members = value as Readonly<Record<string, unknown>>;
  if (isSource(members))
    return members.basis === "" && members.text === "" ? { ...members, ...source } : value;
  return Object.fromEntries(Object.entries(members).map(([key, inner]) => [key, withSource(inner, source)]));
}
