/**
 * Returns a function that works a value out once for each object, and returns the same value for it after that. The
 * object must never change.
 */
export function onceFor<Whole extends object, Value extends object | string>(
  work: (whole: Whole) => Value,
): (whole: Whole) => Value {
  const known = new WeakMap<Whole, Value>();
  return (whole) => {
    const found = known.get(whole) ?? work(whole);
    known.set(whole, found);
    return found;
  };
}
