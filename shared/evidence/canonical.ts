/**
 * Returns canonical JSON (RFC 8785): keys sorted by UTF-16 code units, ECMAScript numbers, no white space. Leaves out
 * members whose value is undefined, as JSON does.
 * @throws TypeError on a value that JSON cannot represent: NaN, infinities, lone surrogates, functions
 */
export function canonical(value: unknown): string {
  switch (typeof value) {
    case "string":
      if (!value.isWellFormed()) throw new TypeError("text holds a lone surrogate");
      return JSON.stringify(value);
    case "number":
      if (!Number.isFinite(value)) throw new TypeError(`${value} has no JSON form`);
      return JSON.stringify(value);
    case "boolean":
      return value ? "true" : "false";
    case "object":
      break;
    default:
      throw new TypeError(`a ${typeof value} has no JSON form`);
  }
  if (value === null) return "null";
  return Array.isArray(value) ? list(value) : members(value as Record<string, unknown>);
}

function list(values: readonly unknown[]): string {
  let text = "";
  for (const value of values) text += `${text && ","}${canonical(value)}`;
  return `[${text}]`;
}

/** Every event is written so, once on each server and panel: no list of pairs is made, because it doubles the time. */
function members(value: Record<string, unknown>): string {
  let text = "";
  for (const key of Object.keys(value).sort()) {
    const member = value[key];
    if (member !== undefined) text += `${text && ","}${canonical(key)}:${canonical(member)}`;
  }
  return `{${text}}`;
}

/**
 * Returns whether `text` is the canonical form of `parsed`, the value that JSON.parse gave for it. Most texts are
 * compared with what JSON.stringify writes, which is several times faster than `canonical`.
 */
export function isCanonical(text: string, parsed: unknown): boolean {
  const plain = !text.includes("\\ud") && JSON.stringify(parsed) === text && isSorted(parsed);
  // JSON.stringify sorts number-like keys in another way, and an escape may stand for a lone surrogate.
  return plain || canonical(parsed) === text;
}

function isSorted(value: unknown): boolean {
  if (typeof value !== "object" || value === null) return true;
  if (Array.isArray(value)) return value.every(isSorted);
  let last = "";
  for (const [key, member] of Object.entries(value)) {
    if (key < last || !isSorted(member)) return false;
    last = key;
  }
  return true;
}
