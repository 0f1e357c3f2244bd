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

/** Returns the words on the key of an aircraft that no session had yet. */
export function nextTwin(): RegExp {
  used += 1;
  if (used > COUNT) throw new Error("more sessions than aircraft");
  return new RegExp(`^Twin ${used}\\b`);
}
