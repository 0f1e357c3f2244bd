const COUNT = 40;
let used = 0;

/**
 * Aircraft of one type, one for each session of a test file. A stop that one test leaves standing would stand in the
 * next session of the same aircraft.
 */
export const TWINS = Array.from({ length: COUNT }, (_, i) => ({
  id: `QX-T${i + 1}`,
  name: `Twin ${i + 1}`,
  typeId: "penhale-twin",
}));

/** Returns an aircraft that no session had yet. */
export function nextTwin(): (typeof TWINS)[number] {
  const twin = TWINS[used];
  if (!twin) throw new Error("more sessions than aircraft");
  used += 1;
  return twin;
}
