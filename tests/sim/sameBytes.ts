/**
 * Returns whether a value has the canonical bytes (RFC 8785) of `truth`, without writing them, which takes many times as
 * long. The caller has written those of `truth`, so that it holds nothing without a JSON form.
 */
export function sameBytes(value: unknown, truth: unknown): boolean {
  if (value === truth) return true;
  if (typeof value !== "object" || typeof truth !== "object" || value === null || truth === null)
    return false;
  if (Array.isArray(value) || Array.isArray(truth))
    return (
      Array.isArray(value) &&
      Array.isArray(truth) &&
      value.length === truth.length &&
      value.every((one, i) => sameBytes(one, truth[i]))
    );
  const [one, other] = [value as Record<string, unknown>, truth as Record<string, unknown>];
  // Members whose value is undefined are not written.
  const missing = Object.keys(one).some((key) => one[key] !== undefined && !Object.hasOwn(other, key));
  return !missing && Object.keys(other).every((key) => sameBytes(one[key], other[key]));
}
