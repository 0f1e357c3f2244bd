export type Step = string | number;
export type Path = readonly Step[];

/** Returns a copy of `root` with the part at `path` replaced; undefined removes a member of an object. */
export function replaced(root: unknown, path: Path, value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (Array.isArray(root)) return root.map((v, i) => (i === step ? replaced(v, rest, value) : v));
  const members = { ...(root as Record<string, unknown>) };
  const next = replaced(members[step], rest, value);
  if (next === undefined) delete members[step];
  else members[step] = next;
  return members;
}

export function moved<T>(list: readonly T[], from: number, to: number): T[] {
  const next = [...list];
  next.splice(to, 0, ...next.splice(from, 1));
  return next;
}
