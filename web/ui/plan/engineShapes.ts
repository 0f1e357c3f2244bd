import type { EngineMark } from "./planView.ts";

const BLADES = "M24 24c-10-7-9-15 0-22c9 7 10 15 0 22c10 7 9 15 0 22c-9-7-10-15 0-22z";
const ACROSS = "M24 24c-7 9-13 8-20 0c7-8 13-9 20 0c7-9 13-8 20 0c-7 8-13 9-20 0z";
const DISC = "M24 4a20 20 0 1 0 .1 0z";

/** The lines and the filled parts of a shape. Of a turning engine, the propeller's disc is hatched. */
export const ENGINE_SHAPES: Readonly<Record<EngineMark["shape"], { line?: string; fill?: string }>> = {
  none: {},
  still: { line: BLADES },
  asked: { line: `${BLADES}M24 1a23 23 0 1 0 .1 0z` },
  clear: { line: "M24 0L48 24L24 48L0 24z", fill: BLADES },
  cranking: { line: "M24 4v40a20 20 0 0 0 0-40M24 18L35 7M24 30L41 13M24 41L44 21M24 4v40" },
  caught: { line: `${DISC}M4 27L27 4M7 35L35 7M13 41L41 13M21 44L44 21` },
  stable: {
    line: `${DISC}M4 27L27 4M7 35L35 7M13 41L41 13M21 44L44 21M0 46h48`,
    fill: "M24 13a11 11 0 1 0 .1 0z",
  },
  stopped: { line: "M3 3h42v42H3z", fill: ACROSS },
  fire: { fill: "M24 0c3 11 14 15 14 29a14 14 0 0 1-28 0c0-6 3-10 6-14c2 5 4 6 5 6c1-6-2-12 3-21z" },
};
